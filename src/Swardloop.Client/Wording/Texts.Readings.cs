namespace Swardloop.Client.Wording;

/// <summary>What a reading's form asks beside the step's own fields.</summary>
public sealed partial class Texts
{
    public string OnWhichWire => Of("On which wire", "An welchem Draht");
    public string TheLoop => Of("The loop, from terminal A", "Die Schleife, ab Klemme A");
    public string GuideWireNamed(string name) => Of($"Guide wire {name}, from the station", $"Leitdraht {name}, ab der Station");
    public string WhatWasParticular => Of("Was anything particular?", "War etwas Besonderes?");
    public string GroundWet => Of("Ground wet", "Boden nass");
    public string GroundDry => Of("Ground dry", "Boden trocken");
    public string GroundFrost => Of("Frost in the ground", "Frost im Boden");
    public string WireMoved => Of("Wire or joint was moved just before", "Draht oder Verbinder wurde eben bewegt");
    public string CouldNotBeDone => Of("It could not be done", "Es ging nicht");
}
