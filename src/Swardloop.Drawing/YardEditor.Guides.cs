using System.Globalization;
using Microsoft.AspNetCore.Components;
using Swardloop.Core.Conductors;
using Swardloop.Core.Yards;
using Swardloop.Model.Yards;

namespace Swardloop.Drawing;

// What is typed of guide wires, and what the wires are made of.
public sealed partial class YardEditor
{
    private const string UnknownWire = "unknown", AsLoop = "loop";

    private static readonly double[] PlainCopperMm2 = [0.5, 0.75, 1, 1.5, 2.5];

    /// <summary>The wires to choose from, beside one that nobody knows; plain copper when none are given.</summary>
    [Parameter]
    public IReadOnlyList<WireChoice> Wires { get; set; } = [];

    private IReadOnlyList<WireChoice> WireChoices => Wires.Count > 0 ? Wires
        : [.. PlainCopperMm2.Select(area => new WireChoice(Words.Say(Words.WireCopper, Words.Number(area, 2)), new() { AreaSquareMetres = area / 1e6 }))];

    // Which choice a wire is, by its place in the list; one of the file's own is none of them and stays as it is.
    private string KeyOf(Conductor conductor)
    {
        IReadOnlyList<WireChoice> choices = WireChoices;
        return Enumerable.Range(0, choices.Count).FirstOrDefault(i => choices[i].Conductor == conductor, -1).ToString(CultureInfo.InvariantCulture);
    }

    private Task SetLoopWire(ChangeEventArgs change) => (change.Value as string) switch
    {
        UnknownWire => Do(Document.Settled with { Conductor = null }),
        { } key when ChoiceOf(key) is { } choice => Do(Document.Settled with { Conductor = choice.Conductor }),
        _ => Task.CompletedTask,
    };

    private Task SetGuideWire(int guide, ChangeEventArgs change) => (change.Value as string) switch
    {
        AsLoop => Do(Document.Settled.WithGuide(guide, Document.Settled.Guides[guide] with { Conductor = null })),
        { } key when ChoiceOf(key) is { } choice => Do(Document.Settled.WithGuide(guide, Document.Settled.Guides[guide] with { Conductor = choice.Conductor })),
        _ => Task.CompletedTask,
    };

    private Task SetGuideName(int guide, ChangeEventArgs change)
    {
        string cell = CellOf(new(DrawnKind.Guide, guide), 0, "name"), name = change.Value?.ToString()?.Trim() ?? "";
        if (name.Length == 0 || Document.Settled.Guides.Where((_, i) => i != guide).Any(other => other.Name == name))
        {
            _wrong[cell] = (name, name.Length == 0 ? Words.GuideNameMissing : Words.Say(Words.GuideNameTaken, name));
            return Task.CompletedTask;
        }

        _ = _wrong.Remove(cell);
        return Do(Document.Settled.WithGuide(guide, Document.Settled.Guides[guide] with { Name = name }));
    }

    private Task SetGuideJoin(int guide, ChangeEventArgs change) =>
        Type(CellOf(new(DrawnKind.Guide, guide), 0, "joins"), change, Words.ParseLength, YardLimits.AlongWire.Holds, Words.WrongLength,
            metres => Do(Document.Settled.WithGuideJoin(guide, metres)));

    private Task AddGuideJoint(int guide, ChangeEventArgs change) =>
        Type(CellOf(new(DrawnKind.Guide, guide), 0, "joint"), change, Words.ParseLength, YardLimits.AlongWire.Holds, Words.WrongLength,
            metres => Do(Document.Settled.WithGuideJointAt(guide, metres)));

    private WireChoice? ChoiceOf(string key) => int.TryParse(key, CultureInfo.InvariantCulture, out int index) && index >= 0 && index < WireChoices.Count ? WireChoices[index] : null;

    private string NameOf(DrawnGuide guide, Joint joint) => Words.Say(Words.GuideJoint, guide.Name, Words.Length(joint.AtMetres, 2));
}
