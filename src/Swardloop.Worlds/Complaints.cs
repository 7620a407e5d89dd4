namespace Swardloop.Worlds;

/// <summary>What owners say on the telephone, in their own words; in two of ten cases it fits nothing in particular.</summary>
internal static class Complaints
{
    private static readonly string[] Vague = ["the robot is acting up again", "Das Ding spinnt seit gestern", "it just stands there, please come"];
    private static readonly string[] Dark = ["nothing lights up on the box at all", "An der Box leuchtet nichts mehr"];
    private static readonly string[] Silent = ["it says there is no wire any more", "Er findet das Kabel nicht", "display tells me signal missing"];
    private static readonly string[] Weak = ["only goes along the edge, the middle stays long", "In der Mitte wird nicht gemäht", "comes halfway and turns"];
    private static readonly string[] Away = ["it drove into the neighbour's bed", "Fährt einfach über den Rand hinaus"];
    private static readonly string[] Moody = ["some days fine, some days dead", "Mal geht er, mal nicht, vor allem nach Regen"];
    private static readonly string[] Lost = ["never comes home by itself any more", "Er findet nicht mehr heim"];
    private static readonly string[] Pond = ["went straight through my roses in the middle", "Mäht jetzt mitten durchs Beet"];
    private static readonly string[] Flat = ["battery empty every morning although it sat in its house", "Lädt nicht mehr"];

    /// <summary>The complaint of a yard.</summary>
    public static string Say(Scene scene)
    {
        string[] fitting = scene.Troubles[0].Cause switch
        {
            "no-mains" or "supply" => Dark,
            "open" or "receiver" or "station" => Silent,
            "series-resistance" or "layout" => Weak,
            "ends-swapped" or "leak-pair" or "crosstalk" => Away,
            "charging" => Flat,
            "unsteady" => Moody,
            "guide" => Lost,
            "short" => Pond,
            _ => Vague,
        };
        string[] said = scene.Draw.Chance("fits", 0.8) ? fitting : Vague;
        return said[(int)scene.Draw.Uniform("phrase", 0, said.Length)];
    }
}
