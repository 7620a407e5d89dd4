using System.Text.Json;
using System.Text.Json.Serialization;

namespace Swardloop.Storage.Keeping;

/// <summary>How the parts of a backup look as JSON.</summary>
[JsonSourceGenerationOptions(JsonSerializerDefaults.Web, RespectNullableAnnotations = true, RespectRequiredConstructorParameters = true)]
[JsonSerializable(typeof(BackupManifest))]
[JsonSerializable(typeof(KeptAccount))]
[JsonSerializable(typeof(KeptEntry))]
public sealed partial class KeepingJson : JsonSerializerContext;
