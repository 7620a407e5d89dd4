using System.Text;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Advising;
using Swardloop.Model.Cases;

namespace Swardloop.Drawing.Tests;

public class EngineWorkTests
{
    [Theory]
    [InlineData("sorrel-corner")] // a break: its step has a place
    [InlineData("marram-reach")] // a resistance: ohms beyond the healthy loop
    public void Advice_has_the_bytes_of_the_command_line_and_its_places_read_back(string example)
    {
        byte[] request = EngineWork.CaseRequest(Examples.Bytes($"{example}.case.json"), Examples.Bytes($"{example}.yard.json"), []);
        byte[] advice = EngineWork.Opened(EngineWork.Answer(EngineTask.Advise, request, null));
        ServiceCase serviceCase = Examples.Case(example).Case;
        Advice direct = Advisor.Advise(serviceCase, CausePriors.Default, Examples.Soon);
        Assert.Equal(Encoding.UTF8.GetString(AdviceJson.ToUtf8(direct, serviceCase)), Encoding.UTF8.GetString(advice));

        AdvicePlaces places = AdvicePlaces.Read(advice);
        Assert.Equal(direct.Density.Count, places.Density.Count);
        Assert.Equal(direct.Location!.AtMetres, places.Location!.AtMetres, 0.01);
        Assert.Equal(direct.ExcessOhms?.Median ?? double.NaN, places.ExtraOhms ?? double.NaN, 0.01);
        Step next = direct.Next[0].Step;
        Assert.Equal(next.AtMetres ?? next.FromMetres, places.Next?.FromMetres);
        Assert.Equal(next.AtMetres ?? next.ToMetres, places.Next?.ToMetres);
    }

    [Fact]
    public void Trail_is_the_trail_computed_here()
    {
        byte[] request = EngineWork.CaseRequest(Examples.Bytes("sorrel-corner.case.json"), Examples.Bytes("sorrel-corner.yard.json"), []);
        ServiceCase serviceCase = Examples.Case("sorrel-corner").Case;
        IReadOnlyList<WireProbe> expected = ProbeTrail.Of(serviceCase, CausePriors.Default, Examples.Soon);
        IReadOnlyList<WireProbe> probes = EngineWork.Probes(EngineWork.Opened(EngineWork.Answer(EngineTask.Trail, request, null)), serviceCase.Observations);
        Assert.Equal(expected.Select(Told), probes.Select(Told));
        static string Told(WireProbe probe) => $"{probe.Observation} {probe.Where} {string.Join(' ', probe.RuledOut)}";
    }

    [Fact]
    public void A_mended_case_teaches_its_cause_and_an_open_one_none()
    {
        ServiceCase open = Examples.Case("sorrel-corner").Case;
        ServiceCase mended = open with { Observations = [.. open.Observations, new Observation.RepairDone(StepKind.MendSpan, null, 30, 32, null), new Observation.MowerCheck(Runs: true)] };
        Assert.Equal(ClosedCase.CauseOf(mended, before => Advisor.Advise(before, CausePriors.Default, Examples.Soon)), Taught(mended));
        Assert.Null(Taught(open));
        static CauseKind? Taught(ServiceCase serviceCase) => EngineWork.Cause(EngineWork.Opened(EngineWork.Answer(
            EngineTask.Taught, EngineWork.CaseRequest(CaseFile.Create(serviceCase, "yard.json").ToUtf8(), Examples.Bytes("sorrel-corner.yard.json"), []), null)));
    }

    [Fact]
    public void A_wrong_file_is_refused_with_all_its_problems()
    {
        byte[] request = EngineWork.MapRequest("""{"format":"swardloop-yard/1","loop":{"path":[[0,0]],"conductor":{}}}"""u8, 500);
        EngineRefusalException refusal = Assert.Throws<EngineRefusalException>(() => EngineWork.Opened(EngineWork.Answer(EngineTask.Map, request, null)));
        Assert.Contains(refusal.Problems, problem => problem.Place == "name");
        Assert.Contains(refusal.Problems, problem => problem.Place.StartsWith("loop.path", StringComparison.Ordinal));
    }

    [Fact]
    public void What_is_no_advice_is_refused() =>
        Assert.Throws<FormatException>(() => AdvicePlaces.Read("""{"format":"swardloop-advice/9"}"""u8.ToArray()));
}
