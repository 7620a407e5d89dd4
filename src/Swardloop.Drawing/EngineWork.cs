using System.Text;
using Swardloop.Core.Diagnosis;
using Swardloop.Core.Diagnosis.Drawn;
using Swardloop.Model.Advising;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;
using Swardloop.Model.Steps;
using Swardloop.Model.Words;
using Swardloop.Model.Yards;

namespace Swardloop.Drawing;

/// <summary>The engine's work itself, from bytes to bytes: done by the worker or, where there is none, by the page.</summary>
internal static class EngineWork
{
    private const byte Done = 0, Refused = 1;

    // The worker and the page have one thread each; a yard's physics is kept as long as its file stays on the shelf.
    private static readonly YardShelf Shelf = new();

    /// <summary>A request for <see cref="EngineTask.Advise"/>, <see cref="EngineTask.Trail"/> or <see cref="EngineTask.Taught"/>.</summary>
    public static byte[] CaseRequest(ReadOnlySpan<byte> caseFile, ReadOnlySpan<byte> yardFile, ReadOnlySpan<byte> priors, string language = "en")
    {
        using MemoryStream bytes = new();
        using BinaryWriter writer = new(bytes);
        foreach (byte[] part in (byte[][])[caseFile.ToArray(), yardFile.ToArray(), priors.ToArray(), Encoding.UTF8.GetBytes(language)])
        {
            writer.Write(part.Length);
            writer.Write(part);
        }

        writer.Flush();
        return bytes.ToArray();
    }

    /// <summary>A request for <see cref="EngineTask.Map"/>.</summary>
    public static byte[] MapRequest(ReadOnlySpan<byte> yardFile, int places) => [.. BitConverter.GetBytes(places), .. yardFile];

    /// <summary>A request for <see cref="EngineTask.FaultMap"/>.</summary>
    public static byte[] FaultMapRequest(ReadOnlySpan<byte> yardFile, SupposedFault fault, LoopState state)
    {
        using MemoryStream bytes = new();
        using BinaryWriter writer = new(bytes);
        writer.Write((int)state);
        writer.Write((int)fault.Kind);
        writer.Write(fault.AtMetres ?? double.NaN);
        writer.Write(fault.OtherMetres ?? double.NaN);
        writer.Write(fault.Ohms);
        writer.Write(yardFile);
        writer.Flush();
        return bytes.ToArray();
    }

    /// <summary>Answers a request.</summary>
    /// <returns>The answer, for <see cref="Opened"/>.</returns>
    public static byte[] Answer(EngineTask task, byte[] request, IProgress<double>? progress)
    {
        try
        {
            return [Done, .. task switch
            {
                EngineTask.Advise => Advise(request),
                EngineTask.Trail => Trail(request),
                EngineTask.Taught => Taught(request),
                EngineTask.Map => SignalMap.Of(
                    Good(YardFile.Read(request.AsMemory(sizeof(int)), "yard")).Yard, BitConverter.ToInt32(request), progress).ToBytes(),
                EngineTask.FaultMap => FaultMap(request, progress),
                _ => throw new ArgumentOutOfRangeException(nameof(task), task, "No such task."),
            }];
        }
        catch (EngineRefusalException refusal)
        {
            return [Refused, .. ProblemBytes(refusal.Problems)];
        }
    }

    /// <summary>What an answer holds.</summary>
    /// <exception cref="EngineRefusalException">The request's files were wrong.</exception>
    public static byte[] Opened(byte[] answer) => answer[0] == Done ? answer[1..] : throw new EngineRefusalException(Problems(answer.AsSpan(1)));

    /// <summary>The cause from the answer to <see cref="EngineTask.Taught"/>; null when the case teaches none.</summary>
    public static CauseKind? Cause(byte[] opened) => WireName.TryReadCause(Encoding.UTF8.GetString(opened), out Cause cause) ? cause.First : null;

    /// <summary>Probes from the answer to <see cref="EngineTask.Trail"/>.</summary>
    public static IReadOnlyList<WireProbe> Probes(byte[] opened, IReadOnlyList<Observation> observations)
    {
        using BinaryReader reader = new(new MemoryStream(opened));
        List<WireProbe> probes = [];
        for (int left = reader.ReadInt32(); left > 0; left--)
        {
            int observation = reader.ReadInt32();
            WireStretch[] gone = new WireStretch[reader.ReadInt32()];
            for (int i = 0; i < gone.Length; i++)
            {
                gone[i] = new(reader.ReadDouble(), reader.ReadDouble());
            }

            probes.Add(new(observation, WireProbe.PlaceOf(observations[observation]), gone));
        }

        return probes;
    }

    private static byte[] FaultMap(byte[] request, IProgress<double>? progress)
    {
        using MemoryStream bytes = new(request);
        using BinaryReader reader = new(bytes);
        LoopState state = (LoopState)reader.ReadInt32();
        SupposedFault fault = new((CauseKind)reader.ReadInt32(), Number(reader.ReadDouble()), Number(reader.ReadDouble()), reader.ReadDouble());
        return SignalMap.Of(Good(YardFile.Read(request.AsMemory((int)bytes.Position), "yard")).Yard, fault, state, progress: progress).ToBytes();

        static double? Number(double value) => double.IsNaN(value) ? null : value;
    }

    private static byte[] Advise(byte[] request)
    {
        (ServiceCase serviceCase, CausePriors priors, string language) = ReadCase(request);
        bool isGerman = language == StepTexts.German.Language;
        return AdviceJson.ToUtf8(
            Advisor.Advise(serviceCase, priors), serviceCase, isGerman ? Phrasebook.German : null, isGerman ? StepTexts.German : null);
    }

    private static byte[] Trail(byte[] request)
    {
        (ServiceCase serviceCase, CausePriors priors, _) = ReadCase(request);
        using MemoryStream bytes = new();
        using BinaryWriter writer = new(bytes);
        IReadOnlyList<WireProbe> probes = ProbeTrail.Of(serviceCase, priors);
        writer.Write(probes.Count);
        foreach (WireProbe probe in probes)
        {
            writer.Write(probe.Observation);
            writer.Write(probe.RuledOut.Count);
            foreach (WireStretch gone in probe.RuledOut)
            {
                writer.Write(gone.FromMetres);
                writer.Write(gone.ToMetres);
            }
        }

        writer.Flush();
        return bytes.ToArray();
    }

    private static byte[] Taught(byte[] request)
    {
        (ServiceCase serviceCase, CausePriors priors, _) = ReadCase(request);
        return ClosedCase.CauseOf(serviceCase, before => Advisor.Advise(before, priors)) is { } kind ? Encoding.UTF8.GetBytes(WireName.Of(kind)) : [];
    }

    private static (ServiceCase Case, CausePriors Priors, string Language) ReadCase(byte[] request)
    {
        using BinaryReader reader = new(new MemoryStream(request));
        byte[] caseFile = reader.ReadBytes(reader.ReadInt32()), yardFile = reader.ReadBytes(reader.ReadInt32()), priors = reader.ReadBytes(reader.ReadInt32());
        string language = Encoding.UTF8.GetString(reader.ReadBytes(reader.ReadInt32()));
        CaseFile read = Good(CaseFile.Read(caseFile, "case", _ => yardFile.Length > 0 ? yardFile : null, Shelf));
        return (read.Case, priors.Length > 0 ? Good(PriorsFile.Read(priors, "priors")).Priors : CausePriors.Default, language);
    }

    private static T Good<T>(Checked<T> read)
        where T : class => read.IsGood ? read.Value : throw new EngineRefusalException(read.Problems);

    private static byte[] ProblemBytes(IReadOnlyList<Problem> problems)
    {
        using MemoryStream bytes = new();
        using BinaryWriter writer = new(bytes);
        writer.Write(problems.Count);
        foreach (Problem problem in problems)
        {
            writer.Write(problem.Source);
            writer.Write(problem.Place);
            writer.Write(problem.Message);
            writer.Write(problem.Allowed);
        }

        writer.Flush();
        return bytes.ToArray();
    }

    private static List<Problem> Problems(ReadOnlySpan<byte> bytes)
    {
        using BinaryReader reader = new(new MemoryStream(bytes.ToArray()));
        List<Problem> problems = [];
        for (int left = reader.ReadInt32(); left > 0; left--)
        {
            problems.Add(new(reader.ReadString(), reader.ReadString(), reader.ReadString(), reader.ReadString()));
        }

        return problems;
    }
}
