using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Json.Serialization;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;
using Swardloop.Workshop.Sync;

namespace Swardloop.Workshop;

/// <summary>How the workshop's records and messages look as JSON; made at compile time, so that the browser's trimmed program has it.</summary>
[JsonSourceGenerationOptions(
    JsonSerializerDefaults.Web, NumberHandling = JsonNumberHandling.Strict, RespectNullableAnnotations = true, RespectRequiredConstructorParameters = true)]
[JsonSerializable(typeof(string))]
[JsonSerializable(typeof(bool))]
[JsonSerializable(typeof(DateTimeOffset))]
[JsonSerializable(typeof(JsonObject))]
[JsonSerializable(typeof(Change))]
[JsonSerializable(typeof(IReadOnlyList<Change>))]
[JsonSerializable(typeof(IReadOnlyList<RecordState>))]
[JsonSerializable(typeof(WaitingChange))]
[JsonSerializable(typeof(IReadOnlyList<WaitingChange>))]
[JsonSerializable(typeof(WaitingPhoto))]
[JsonSerializable(typeof(IReadOnlyList<WaitingPhoto>))]
[JsonSerializable(typeof(DeviceWrite))]
[JsonSerializable(typeof(RecordState))]
[JsonSerializable(typeof(ChangeBatch))]
[JsonSerializable(typeof(ChangeResults))]
[JsonSerializable(typeof(RecordPage))]
[JsonSerializable(typeof(YardBundle))]
[JsonSerializable(typeof(Bench))]
[JsonSerializable(typeof(IReadOnlyList<SearchHit>))]
[JsonSerializable(typeof(IReadOnlyList<PersonEntry>))]
[JsonSerializable(typeof(Me))]
[JsonSerializable(typeof(FirstAccount))]
[JsonSerializable(typeof(SignIn))]
[JsonSerializable(typeof(NewPerson))]
[JsonSerializable(typeof(ProblemReply))]
[JsonSerializable(typeof(ChangedRecord))]
[JsonSerializable(typeof(IReadOnlyList<HistoryEntry>))]
[JsonSerializable(typeof(PasswordChange))]
[JsonSerializable(typeof(RoleChange))]
[JsonSerializable(typeof(LockChange))]
[JsonSerializable(typeof(PersonEntry))]
[JsonSerializable(typeof(IReadOnlyList<PasskeyEntry>))]
[JsonSerializable(typeof(PasskeyName))]
[JsonSerializable(typeof(IReadOnlyList<SessionEntry>))]
[JsonSerializable(typeof(ForgetPreview))]
[JsonSerializable(typeof(ForgetRequest))]
[JsonSerializable(typeof(ForgetReport))]
[JsonSerializable(typeof(NewPractice))]
[JsonSerializable(typeof(PracticeStep))]
[JsonSerializable(typeof(PracticeState))]
[JsonSerializable(typeof(PracticeEnd))]
[JsonSerializable(typeof(PracticeWay))]
[JsonSerializable(typeof(IReadOnlyList<PracticeEntry>))]
public sealed partial class WorkshopJson : JsonSerializerContext;
