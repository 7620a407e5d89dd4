using System.Reflection;
using System.Reflection.Emit;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using Swardloop.Core.Circuits;

namespace Swardloop.Cli.Tests;

/// <summary>Which room may know which: docs/map.md, held by what the compiled code calls.</summary>
public sealed class RoomsTests
{
    // Everything that a project may refer to. A new arrow is a decision: it is added here and in docs/map.md.
    private static readonly Dictionary<string, string[]> Arrows = new()
    {
        ["Core"] = [],
        ["Worlds"] = [],
        ["Model"] = ["Core"],
        ["Workshop"] = ["Model"],
        ["Drawing"] = ["Model"],
        ["Pictures"] = ["Model"],
        ["Documents"] = ["Model", "Pictures"],
        ["Planning"] = ["Model"],
        ["Trial"] = ["Model"],
        ["Practice"] = ["Workshop", "Worlds"],
        ["Storage"] = ["Workshop"],
        ["Storage.Sqlite"] = ["Storage"],
        ["Storage.Postgres"] = ["Storage"],
        ["Client"] = ["Drawing", "Workshop"],
        ["Cli"] = ["Documents", "Model", "Pictures", "Planning", "Practice", "Trial", "Worlds"],
        ["Server"] = ["Cli", "Client", "Documents", "Practice", "Storage.Sqlite", "Storage.Postgres"],
    };

    // What the core does not do: time, chance, culture, files and networks arrive as arguments or not at all.
    private static readonly string[] NotInCore =
    [
        "System.IO.", "System.Net.", "System.Console", "System.Diagnostics.Process", "System.Diagnostics.Stopwatch", "System.Environment.GetEnv", "System.Environment.get_Tick", "System.Environment.get_MachineName", "System.Random",
        "System.TimeProvider", "System.DateTime.get_", "System.DateTimeOffset.get_Now", "System.DateTimeOffset.get_UtcNow",
        "System.Globalization.CultureInfo.get_Current", "System.Guid.NewGuid", "System.Guid.CreateVersion7", "System.Text.Json.", "System.Xml.",
    ];

    // Words of the diagnosis that older rooms borrow: to be moved to the room that they describe, not to be added to.
    private static readonly string[] Borrowed = ["Swardloop.Core.Diagnosis.EchoKind.", "Swardloop.Core.Diagnosis.MeterAccuracy.", "Swardloop.Core.Diagnosis.WireEnd."];

    // Calls that nobody makes, and what is called instead.
    private static readonly (Regex Call, string Instead)[] Banned =
    [
        (new(@"\bDateTime(Offset)?\.(Now|UtcNow|Today)\b"), "a TimeProvider, so that a test can set the clock"),
        (new(@"\bThread\.Sleep\("), "await Task.Delay(…, cancellation), or wait for what is expected"),
        (new(@"\bCultureInfo\.Current"), "a Phrasebook, or the invariant culture"),
        (new(@"\bConsole\.(Write|Read|Out|Error)"), "a Terminal"),
        (new(@"\bGC\.Collect\("), "nothing: the runtime decides"),
    ];

    [Fact]
    public void Projects_refer_to_each_other_only_as_the_map_says()
    {
        string[] projects = [.. Directory.EnumerateFiles(Repository.At("src"), "*.csproj", SearchOption.AllDirectories)];
        Assert.Equal(Arrows.Keys.Order(), projects.Select(Name).Order());
        Assert.All(projects, project =>
        {
            string[] refers = [.. XDocument.Load(project).Descendants("ProjectReference").Select(reference => Name((string)reference.Attribute("Include")!))];
            Assert.True(refers.All(Arrows[Name(project)].Contains), $"{Name(project)} refers to {string.Join(", ", refers.Except(Arrows[Name(project)]))}");
        });
        string map = File.ReadAllText(Repository.At("docs/map.md"));
        Assert.All(Arrows.Keys, name => Assert.Contains($"`{name}`", map, StringComparison.Ordinal));
    }

    [Fact]
    public void Core_reads_no_clock_no_file_no_chance_and_no_culture() => Assert.Empty(
        from call in CallsOf(typeof(Network).Assembly)
        from banned in NotInCore
        where call.Called.StartsWith(banned, StringComparison.Ordinal)
        select $"{call.Caller} calls {call.Called}");

    [Theory]
    [InlineData("Swardloop.Core.Circuits", "Swardloop.Core.Diagnosis")]
    [InlineData("Swardloop.Core.Fields", "Swardloop.Core.Diagnosis")]
    [InlineData("Swardloop.Core.Fields", "Swardloop.Core.Circuits")]
    [InlineData("Swardloop.Core.Geometry", "Swardloop.Core.Diagnosis")]
    [InlineData("Swardloop.Core.Reach", "Swardloop.Core.Diagnosis")]
    [InlineData("Swardloop.Core.Budget", "Swardloop.Core.Diagnosis")]
    [InlineData("Swardloop.Core.Yards", "Swardloop.Core.Diagnosis")]
    public void A_room_of_the_core_knows_nothing_of_another(string room, string other)
    {
        (string Caller, string Called)[] calls = [.. CallsOf(typeof(Network).Assembly).Where(call => call.Caller.StartsWith(room + ".", StringComparison.Ordinal))];
        Assert.NotEmpty(calls);
        Assert.Empty(calls.Where(call => call.Called.StartsWith(other + ".", StringComparison.Ordinal) && !Borrowed.Any(call.Called.StartsWith)).Select(call => $"{call.Caller} calls {call.Called}"));
    }

    [Fact]
    public void The_server_takes_the_reading_of_calls_from_the_command_line_and_none_of_its_commands() =>
        Assert.DoesNotContain(Sources("src/Swardloop.Server"), file => File.ReadAllText(file).Contains("Swardloop.Cli.Commands", StringComparison.Ordinal));

    [Fact]
    public void Nobody_makes_a_banned_call() => Assert.Empty(
        from file in Sources("src")
        from line in File.ReadLines(file).Select((text, number) => (text, number: number + 1))
        where !line.text.TrimStart().StartsWith("//", StringComparison.Ordinal)
        from banned in Banned
        where banned.Call.IsMatch(line.text) && !file.EndsWith("Terminal.cs", StringComparison.Ordinal)
        select $"{Path.GetRelativePath(Repository.Root, file)}:{line.number}: instead: {banned.Instead}");

    // "references B2", "model 5": a comment's pointer leads to a heading of a page in this repository.
    [Fact]
    public void Pointers_of_comments_lead_to_headings()
    {
        string references = File.ReadAllText(Repository.At("docs/references.md")), model = File.ReadAllText(Repository.At("docs/model.md"));
        Regex pointer = new(@"\b(?:(references),? (?:section )?([A-HP]\d?)\b|(model) (\d)\b)");
        List<string> lost = [];
        int found = 0;
        foreach (string file in (string[])[.. Sources("src"), .. Sources("tests"), .. Sources("bench")])
        {
            foreach (Match match in pointer.Matches(File.ReadAllText(file)))
            {
                found++;
                bool leads = match.Groups[1].Success
                    ? Regex.IsMatch(references, $@"^(#+ {match.Groups[2].Value}\b|\| {match.Groups[2].Value} )", RegexOptions.Multiline)
                    : Regex.IsMatch(model, $@"^## {match.Groups[4].Value} ", RegexOptions.Multiline);
                if (!leads)
                {
                    lost.Add($"{Path.GetRelativePath(Repository.Root, file)}: {match.Value}");
                }
            }
        }

        Assert.True(found > 20, $"{found} pointers");
        Assert.Empty(lost);
        Assert.True(File.Exists(Repository.At("docs/contract.md")));
    }

    [Fact]
    public void The_scan_sees_a_call() => Assert.Contains(CallsOf(typeof(RoomsTests).Assembly),
        call => call.Caller.StartsWith("Swardloop.Cli.Tests.RoomsTests", StringComparison.Ordinal) && call.Called.StartsWith("System.IO.File.ReadAllText", StringComparison.Ordinal));

    private static string Name(string project) => Path.GetFileNameWithoutExtension(project.Replace('\\', '/'))["Swardloop.".Length..];

    private static IEnumerable<string> Sources(string folder) => Directory.EnumerateFiles(Repository.At(folder), "*.cs", SearchOption.AllDirectories)
        .Where(file => !file.Split('/').Any(part => part is "bin" or "obj"));

    // Every member that a method's code names, and every type of its fields, parameters and results.
    private static IEnumerable<(string Caller, string Called)> CallsOf(Assembly assembly)
    {
        const BindingFlags all = BindingFlags.Public | BindingFlags.NonPublic | BindingFlags.Static | BindingFlags.Instance | BindingFlags.DeclaredOnly;
        foreach (Type type in assembly.GetTypes())
        {
            string caller = Named(type);
            foreach (FieldInfo field in type.GetFields(all))
            {
                yield return ($"{caller}.{field.Name}", Named(field.FieldType) + ".");
            }

            foreach (MethodBase method in ((IEnumerable<MethodBase>)type.GetMethods(all)).Concat(type.GetConstructors(all)))
            {
                foreach (ParameterInfo parameter in method.GetParameters())
                {
                    yield return ($"{caller}.{method.Name}", Named(parameter.ParameterType) + ".");
                }

                foreach (MemberInfo member in MembersIn(method))
                {
                    yield return ($"{caller}.{method.Name}", member is Type named ? Named(named) + "." : $"{(member.DeclaringType is { } owner ? Named(owner) : "")}.{member.Name}");
                }
            }
        }
    }

    private static string Named(Type type) => type.HasElementType ? Named(type.GetElementType()!) : (type.IsGenericType ? type.GetGenericTypeDefinition() : type).FullName ?? type.Name;

    private static IEnumerable<MemberInfo> MembersIn(MethodBase method)
    {
        if (method.GetMethodBody()?.GetILAsByteArray() is not { } code)
        {
            yield break;
        }

        Type[] ofType = method.DeclaringType!.IsGenericType ? method.DeclaringType.GetGenericArguments() : [];
        Type[] ofMethod = method.IsGenericMethod ? method.GetGenericArguments() : [];
        int at = 0;
        while (at < code.Length)
        {
            OpCode op = code[at] == 0xFE ? Codes[unchecked((short)(0xFE00 | code[at + 1]))] : Codes[code[at]];
            at += op.Size;
            if (op.OperandType is OperandType.InlineMethod or OperandType.InlineField or OperandType.InlineType or OperandType.InlineTok)
            {
                if (method.Module.ResolveMember(BitConverter.ToInt32(code, at), ofType, ofMethod) is { } member)
                {
                    yield return member;
                }
            }

            at += op.OperandType switch
            {
                OperandType.InlineNone => 0,
                OperandType.ShortInlineBrTarget or OperandType.ShortInlineI or OperandType.ShortInlineVar => 1,
                OperandType.InlineVar => 2,
                OperandType.InlineI8 or OperandType.InlineR => 8,
                OperandType.InlineSwitch => 4 + (4 * BitConverter.ToInt32(code, at)),
                _ => 4,
            };
        }
    }

    private static readonly Dictionary<short, OpCode> Codes = typeof(OpCodes).GetFields(BindingFlags.Public | BindingFlags.Static)
        .Select(field => (OpCode)field.GetValue(null)!).ToDictionary(op => op.Value);
}
