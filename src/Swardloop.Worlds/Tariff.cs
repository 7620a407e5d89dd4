using System.Text.Json.Nodes;

namespace Swardloop.Worlds;

/// <summary>Minutes and parts of every step: the contract's table, written out again.</summary>
internal static class Tariff
{
    private static readonly Dictionary<string, (double Minutes, double Parts)> Fixed = new()
    {
        ["station-lamp"] = (1, 0),
        ["outlet-check"] = (2, 0),
        ["mower-start"] = (3, 0),
        ["mower-reach"] = (5, 0),
        ["follow-wire"] = (6, 0),
        ["wire-crossing"] = (5, 0),
        ["loop-resistance"] = (5, 0),
        ["supply-voltage"] = (4, 0),
        ["earth-resistance"] = (6, 0),
        ["insulation"] = (8, 0),
        ["earth-ratio"] = (10, 0),
        ["end-capacitance"] = (8, 0),
        ["reflection"] = (6, 0),
        ["tone-trace"] = (4, 0),
        ["earth-gradient"] = (4, 0),
        ["ac-ratio"] = (10, 0),
        ["guide-resistance"] = (6, 0),
        ["joint-drop"] = (8, 0),
        ["pin-probe"] = (8, 1),
        ["wiggle"] = (5, 0),
        ["terminal-look"] = (3, 0),
        ["swap-ends"] = (2, 0),
        ["charge-check"] = (3, 0),
        ["clean-contacts"] = (10, 0),
        ["replace-battery"] = (15, 110),
        ["ask-maker"] = (30, 80),
        ["substitute-loop"] = (8, 0),
        ["substitute-mower"] = (10, 0),
        ["neighbour-off"] = (5, 0),
        ["mower-check"] = (5, 0),
        ["restore-mains"] = (5, 0),
        ["replace-supply"] = (5, 60),
        ["replace-station"] = (15, 180),
        ["remake-terminals"] = (8, 4),
        ["remake-joint"] = (12, 2),
        ["recode-station"] = (10, 0),
        ["service-receiver"] = (45, 90),
        ["service-drive"] = (60, 120),
    };

    /// <summary>Steps that mend, not ask.</summary>
    public static bool IsRepair(string step) => step is "restore-mains" or "replace-supply" or "replace-station" or "swap-ends" or "clean-contacts" or "replace-battery" or "ask-maker"
        or "remake-terminals" or "remake-joint" or "mend-span" or "renew-loop" or "relay-layout" or "recode-station" or "service-receiver" or "service-drive";

    /// <summary>Minutes of a technician and parts in money; null for a step the contract does not name.</summary>
    public static (double Minutes, double Parts)? Of(Scene scene, JsonObject step)
    {
        string name = Name(step);
        double length = scene.FiledLength, from = Number(step, "fromM") ?? 0, to = Number(step, "toM") ?? length, span = Math.Max(0, to - from);
        return name switch
        {
            "split-resistance" => scene.FiledJoints.Any(joint => Math.Abs(joint - (Number(step, "atM") ?? 0)) <= 0.3) ? (12, 2) : (20, 4),
            "bypass" => (10 + (0.1 * Plan.Apart(scene.Plan.At(from / scene.FileScale), scene.Plan.At(to / scene.FileScale))), 0),
            "look" => (Math.Max(2, 0.3 * span), 0),
            "mend-span" => (10 + (4 * span), 4 + (0.5 * span)),
            "renew-loop" => (60 + (1.2 * length), 0.5 * length),
            "relay-layout" => (120 + (1.5 * length), 0.5 * length),
            _ => Fixed.TryGetValue(name, out (double, double) known) ? known : null,
        };
    }

    /// <summary>What a step costs whom it falls to, without travel.</summary>
    public static double Price(Scene scene, JsonObject step)
    {
        (double minutes, double parts) = Of(scene, step) ?? (5, 0);
        return parts + (Owners(step) ? 2 * minutes / 60 * Scene.Patience : minutes / 60 * scene.Labour);
    }

    /// <summary>Whether the owner does it.</summary>
    public static bool Owners(JsonObject step) => (string?)step["by"] == "owner";

    /// <summary>A step's name.</summary>
    public static string Name(JsonObject step) => (string?)step["step"] ?? "";

    /// <summary>A number among a step's parameters.</summary>
    public static double? Number(JsonObject step, string parameter) => step[parameter] is JsonValue value && value.TryGetValue(out double number) ? number : null;
}
