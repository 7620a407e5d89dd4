using Swardloop.Core.Budget;
using Swardloop.Core.Diagnosis;
using Swardloop.Core.Reach;
using Swardloop.Core.Yards;
using Swardloop.Model.Pricing;
using Swardloop.Model.Steps;
using Swardloop.Model.Words;

namespace Swardloop.Model.Sheets;

/// <summary>What sheets are made from: a case, how money is reckoned, and in whose name and language. What several sheets need is computed once.</summary>
public sealed class SheetSource
{
    private readonly Lazy<Advice> _advice;
    private readonly Lazy<LoopReach> _reach;

    /// <summary>Prepares sheets.</summary>
    /// <param name="serviceCase">The case; of a yard alone, a case without observations.</param>
    /// <param name="german">Whether the sheet is German; else English.</param>
    /// <param name="advise">Advises on the case; called only when a sheet needs it.</param>
    public SheetSource(ServiceCase serviceCase, bool german, Func<ServiceCase, Advice> advise)
    {
        (Case, German) = (serviceCase, german);
        Advise = advise;
        _advice = new(() => advise(serviceCase));
        _reach = new(() => new LoopReach(serviceCase.Yard));
        Budget = LoopBudget.For(serviceCase.Yard);
        Signal = SignalBudget.Of(serviceCase.Yard, Budget.InductanceHenry);
        Prices = new PriceSettings { Currency = serviceCase.Rates.Currency };
    }

    /// <summary>The case.</summary>
    public ServiceCase Case { get; }

    /// <summary>Whether the sheet is German.</summary>
    public bool German { get; }

    /// <summary>How money is reckoned.</summary>
    public PriceSettings Prices { get; init; }

    /// <summary>Lengths in feet.</summary>
    public bool Feet { get; init; }

    /// <summary>The workshop's name, address and numbers, a line each.</summary>
    public IReadOnlyList<string> Workshop { get; init; } = [];

    /// <summary>Who signed and when, as it is to be printed; null: a line to sign on.</summary>
    public string? SignedBy { get; init; }

    /// <summary>What was drawn with a finger by whoever signed; null for none.</summary>
    public SignatureMark? Mark { get; init; }

    /// <summary>The reading that was signed for; null: the case's last one.</summary>
    public Observation.LoopResistance? AcceptedReading { get; init; }

    /// <summary>Whether the reading that was signed for was corrected or struck out since.</summary>
    public bool SignedReadingChanged { get; init; }

    /// <summary>The yard.</summary>
    public Yard Yard => Case.Yard;

    /// <summary>What a sound loop measures.</summary>
    public LoopBudget Budget { get; }

    /// <summary>What resistance does to the signal.</summary>
    public SignalBudget Signal { get; }

    /// <summary>The yard's reach.</summary>
    public LoopReach Reach => _reach.Value;

    /// <summary>Advises on a case.</summary>
    public Func<ServiceCase, Advice> Advise { get; }

    /// <summary>Advice on the case as it stands.</summary>
    public Advice Advice => _advice.Value;

    /// <summary>Words.</summary>
    public Phrasebook Book => German ? (Feet ? Phrasebook.German.InFeet() : Phrasebook.German) : Feet ? Phrasebook.English.InFeet() : Phrasebook.English;

    /// <summary>Words of prices.</summary>
    public PriceWords PriceWords => Feet ? (German ? PriceWords.German : PriceWords.English).InFeet() : German ? PriceWords.German : PriceWords.English;

    /// <summary>Words of steps.</summary>
    public StepTexts Steps => German ? StepTexts.German : StepTexts.English;

    /// <summary>The loop's readings in order, leads taken off (Ω); null: over-range.</summary>
    public IEnumerable<(Observation.LoopResistance Seen, double? Ohms)> LoopReadings =>
        Case.Observations.OfType<Observation.LoopResistance>().Select(seen => (seen, seen.Ohms - seen.LeadOhms));

    /// <summary>Repairs that were done, joints opened and remade included.</summary>
    public IEnumerable<Observation> Repairs =>
        Case.Observations.Where(seen => seen is Observation.RepairDone or Observation.SplitResistance);

    /// <summary>A sheet of this case in this workshop's name.</summary>
    /// <param name="kind">Its kind.</param>
    /// <param name="title">Its title.</param>
    /// <param name="blocks">What stands on it.</param>
    internal Sheet Sheet(SheetKind kind, string title, IReadOnlyList<SheetBlock> blocks) => new()
    {
        Kind = kind,
        Language = German ? "de" : "en",
        Title = title,
        Yard = PlaceWords.OneLine(Yard.Name, 300),
        Workshop = Workshop,
        Blocks = blocks,
    };

    /// <summary>A picture of the signal with the loop at a resistance (Ω).</summary>
    public YardPicture Picture(double ohms) => new(Reach, Signal.RequiredFieldPerAmpere(Math.Max(0, ohms)));

    /// <summary>A resistance with what it may be out by.</summary>
    public string Ohms(double ohms, double deviation) => $"{Book.Number(ohms, Math.Abs(deviation) < 0.95 ? 2 : 1)} Ω ± {Book.Number(deviation, Math.Abs(deviation) < 0.95 ? 2 : 1)}";
}
