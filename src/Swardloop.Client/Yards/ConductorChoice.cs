using Swardloop.Client.Wording;
using Swardloop.Core.Conductors;
using Swardloop.Drawing;
using Swardloop.Workshop.Records;
using Swardloop.Workshop.Sync;

namespace Swardloop.Client.Yards;

/// <summary>A wire to choose: of the workshop's stock, or a plain copper one.</summary>
/// <param name="Key">Tells it from the others.</param>
/// <param name="Words">What it is called.</param>
/// <param name="Conductor">What it is; null: nobody knows.</param>
public sealed record ConductorChoice(string Key, string Words, Conductor? Conductor)
{
    /// <summary>Key of the wire that nobody wrote down.</summary>
    public const string Unknown = "unknown";

    private static readonly double[] PlainCopperMm2 = [0.5, 0.75, 1, 1.5, 2.5];

    /// <summary>Stock first, then plain copper by section, then a wire that nobody wrote down.</summary>
    public static IReadOnlyList<ConductorChoice> All(Replica replica, Speech say) =>
    [
        .. replica.OfKind(RecordKind.Conductor).Where(stock => !stock.Flag("archived"))
            .OrderBy(stock => stock.Text("name") ?? "", StringComparer.OrdinalIgnoreCase)
            .Select(stock => Of(stock) is { } conductor ? new ConductorChoice(stock.Id.ToString(), stock.Text("name") ?? "", conductor) : null)
            .OfType<ConductorChoice>(),
        .. PlainCopperMm2.Select(area => new ConductorChoice(
            $"cu{area}", say.Texts.PlainCopper(say.Number(area, 2)), new() { AreaSquareMetres = area / 1e6 })),
        new(Unknown, say.Texts.WireNotKnown, null),
    ];

    /// <summary>The wires that are known, as the drawing board offers them.</summary>
    public static IReadOnlyList<WireChoice> ForDrawing(Replica replica, Speech say) =>
        [.. All(replica, say).SelectMany(choice => choice.Conductor is { } conductor ? [new WireChoice(choice.Words, conductor)] : Array.Empty<WireChoice>())];

    /// <summary>The wire of a key; copper of 0.75 mm² when there is none such.</summary>
    /// <returns>Null: nobody knows.</returns>
    public static Conductor? Of(string? key, Replica replica, Speech say) =>
        All(replica, say).FirstOrDefault(choice => choice.Key == key) is { } chosen ? chosen.Conductor : new Conductor { AreaSquareMetres = 0.75e-6 };

    private static Conductor? Of(RecordState stock)
    {
        ConductorMaterial material = stock.Text("material") switch
        {
            "aluminium" => ConductorMaterial.Aluminium,
            "copper-clad-steel" => ConductorMaterial.CopperCladSteel,
            "copper-clad-aluminium" => ConductorMaterial.CopperCladAluminium,
            _ => ConductorMaterial.Copper,
        };
        bool isClad = material is ConductorMaterial.CopperCladSteel or ConductorMaterial.CopperCladAluminium;
        double? ohms = stock.Number("ohmsPerKmAt20C"), area = stock.Number("areaMm2"), iacs = stock.Number("conductivityPercentIacs");
        return ohms is not null ? new() { Material = material, OhmsPerMetreAt20C = ohms / 1000 }
            : area is not null && (!isClad || iacs is not null)
                ? new() { Material = material, AreaSquareMetres = area / 1e6, ConductivityShareIacs = isClad ? iacs / 100 : null } : null;
    }
}
