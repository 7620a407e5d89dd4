using System.Text.Json.Nodes;

namespace Swardloop.Worlds;

/// <summary>One who knows cause and place: pays travel where a technician is needed, the right repair of every fault the mower minds, one mower check.</summary>
internal static class Clairvoyant
{
    /// <summary>The right repairs, in order.</summary>
    public static IReadOnlyList<JsonObject> Repairs(Scene scene)
    {
        Trouble[] harmful = [.. scene.Troubles.Where(trouble => trouble.Harmful)];
        JsonObject[] wire = [.. harmful.Where(trouble => trouble.At is not null).Select(trouble => Repair(scene, trouble)).DistinctBy(step => step.ToJsonString())];
        JsonObject renew = new() { ["step"] = "renew-loop" };
        if (wire.Sum(step => Tariff.Price(scene, step)) > Tariff.Price(scene, renew))
        {
            wire = [renew];
        }

        // A wire laid anew has no old faults left, and no swapped ends after its terminals are made again.
        wire = Array.Exists(harmful, trouble => trouble.Cause == "layout") ? [] : wire;
        bool endsMade = Array.Exists(wire, step => Tariff.Name(step) is "remake-terminals" or "renew-loop");
        JsonObject[] others = [.. harmful.Where(trouble => trouble.At is null && !(endsMade && trouble.Cause == "ends-swapped")).Select(trouble => Repair(scene, trouble))];
        if (scene.Owner && wire.Length == 0 && Array.TrueForAll(others, step => Tariff.Name(step) is "restore-mains" or "swap-ends" or "clean-contacts" or "ask-maker"))
        {
            double byOwner = others.Sum(step => Tariff.Price(scene, WithOwner(step))), byOther = scene.Travel + others.Sum(step => Tariff.Price(scene, step));
            others = byOwner <= byOther ? [.. others.Select(WithOwner)] : others;
        }

        return [.. wire, .. others];
    }

    /// <summary>What it pays.</summary>
    public static double Cost(Scene scene)
    {
        IReadOnlyList<JsonObject> repairs = Repairs(scene);
        bool visit = repairs.Any(step => !Tariff.Owners(step));
        double check = scene.Owner ? Math.Min(Tariff.Price(scene, Check(false)), Tariff.Price(scene, Check(true))) : Tariff.Price(scene, Check(false)) + (visit ? 0 : scene.Travel);
        return (visit ? scene.Travel : 0) + repairs.Sum(step => Tariff.Price(scene, step)) + check;
    }

    /// <summary>A mower check, by the owner or by the technician.</summary>
    public static JsonObject Check(bool owner) => new() { ["step"] = "mower-check", ["by"] = owner ? "owner" : "technician" };

    private static JsonObject WithOwner(JsonObject step)
    {
        JsonObject copy = (JsonObject)step.DeepClone();
        copy["by"] = "owner";
        return copy;
    }

    private static JsonObject Repair(Scene scene, Trouble trouble)
    {
        double length = scene.Plan.Length;
        return trouble.Cause switch
        {
            "no-mains" => Step("restore-mains"),
            "supply" => Step("replace-supply"),
            "station" => Step("replace-station"),
            "ends-swapped" => Step("swap-ends"),
            "layout" => Step("relay-layout"),
            "crosstalk" => Step("recode-station"),
            "receiver" => Step("service-receiver"),
            "drive" => Step("service-drive"),
            "charging" => Step(trouble.Battery ? "replace-battery" : "clean-contacts"),
            "unmodelled" => Step("ask-maker"),
            "guide" => new()
            {
                ["step"] = "mend-span",
                ["wire"] = "G1",
                ["fromM"] = Math.Max(0, trouble.At!.Value - 0.5),
                ["toM"] = Math.Min(scene.Height, trouble.At.Value + 0.5),
            },
            _ when trouble.AtJoint && (trouble.At <= 0.3 || trouble.At >= length - 0.3) => Step("remake-terminals"),
            _ when trouble.AtJoint => new() { ["step"] = "remake-joint", ["atM"] = trouble.At * scene.FileScale },
            _ => new() { ["step"] = "mend-span", ["fromM"] = Math.Max(0, (trouble.At!.Value * scene.FileScale) - 0.5), ["toM"] = Math.Min(scene.FiledLength, (trouble.At.Value * scene.FileScale) + 0.5) },
        };
    }

    private static JsonObject Step(string name) => new() { ["step"] = name };
}
