using Swardloop.Model.Cases;
using Swardloop.Model.Yards;

namespace Swardloop.Drawing.Host;

/// <summary>The example files, carried along.</summary>
internal static class Example
{
    public static byte[] Bytes(string file)
    {
        using Stream stream = typeof(Example).Assembly.GetManifestResourceStream(file) ?? throw new ArgumentException($"No example {file}.", nameof(file));
        using MemoryStream bytes = new();
        stream.CopyTo(bytes);
        return bytes.ToArray();
    }

    public static YardFile Yard(string name) => YardFile.Read(Bytes($"{name}.yard.json"), name).Value!;

    public static CaseFile Case(string name) => CaseFile.Read(Bytes($"{name}.case.json"), name, Bytes).Value!;
}
