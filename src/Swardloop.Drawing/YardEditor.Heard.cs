using Microsoft.AspNetCore.Components;
using Swardloop.Core.Geometry;
using Swardloop.Core.Yards;
using Swardloop.Model.Yards;

namespace Swardloop.Drawing;

/// <content>Places where a tone on the wire was heard, by touch or by the device's position, and the way through them that is proposed as the wire.</content>
public sealed partial class YardEditor
{
    /// <summary>A position known worse than this (m) says nothing about a wire in a garden. Common practice, no source.</summary>
    private const double CoarseMetres = 10;

    // How well places taken by position are known; all others were touched.
    private readonly Dictionary<PlanPoint, double> _deviceMetres = [];
    private (IReadOnlyList<PlanPoint> Places, HeardCourse? Course)? _proposed;
    private string? _hereProblem;
    private bool _isLocating;

    /// <summary>Tells where the device is; without it places are touched only.</summary>
    [Parameter]
    public Func<Task<HerePosition>>? Locate { get; set; }

    // A plan that lies nowhere on the earth yet gets its place from the first position, as long as nothing is drawn on it.
    private bool MayLocate => Locate is not null && (Drawing.Datum is not null || (!Drawing.Parts.Any() && _hand.HeardPlaces.Count == 0));

    private HeardCourse? Proposal
    {
        get
        {
            IReadOnlyList<PlanPoint> places = _hand.HeardPlaces;
            if (!ReferenceEquals(_proposed?.Places, places))
            {
                _proposed = (places, HeardCourse.Of([.. places.Select(HeardAt)]));
            }

            return _proposed?.Course;
        }
    }

    private string? HeardSaid => _hand.Tool != EditorTool.Heard ? null
        : _isLocating ? Words.Locating
        : _hereProblem ?? (Proposal is not { } way ? _hand.HeardPlaces.Count > 0 ? Words.Say(Words.HeardTooFew, _hand.HeardPlaces.Count, HeardCourse.FewestPlaces) : null
            : Words.Say(
                Words.HeardProposal, Words.Length(way.LengthMetres), Words.Length(way.LengthToleranceMetres), way.Round.Count - 1, Words.Length(way.ToleranceMetres), Words.Length(way.WidestGapMetres)));

    private HeardPlace HeardAt(PlanPoint place) => _deviceMetres.TryGetValue(place, out double metres) ? HeardPlace.ByPosition(place, metres) : new(place, HeardPlace.TouchedMetres);

    private async Task HearHere()
    {
        (_isLocating, _hereProblem) = (true, null);
        HerePosition here = await Locate!();
        _isLocating = false;
        _hereProblem = here.Fault ?? (here.AccuracyMetres <= CoarseMetres ? null : Words.Say(Words.HeardTooCoarse, Words.Length(here.AccuracyMetres, 0)));
        if (_hereProblem is not null || _hand.Tool != EditorTool.Heard || !MayLocate)
        {
            return;
        }

        if (Drawing.Datum is null)
        {
            _ = Document.Do(Drawing with { Datum = new Datum(Math.Round(here.LatitudeDegrees, 7), Math.Round(here.LongitudeDegrees, 7)) });
        }

        PlanPoint at = Snapping.Centimetres(Drawing.Datum!.ToPlane().ToPlan(here.LatitudeDegrees, here.LongitudeDegrees));
        if (!YardLimits.Coordinate.Holds(at.EastMetres) || !YardLimits.Coordinate.Holds(at.NorthMetres))
        {
            _hereProblem = Words.HeardElsewhere;
            return;
        }

        _deviceMetres[at] = here.AccuracyMetres;
        _hand.PlaceAt(at);
        if (!_zoomed)
        {
            ShowAll();
        }
    }

    private async Task TakeHeard()
    {
        if (Proposal is { } way)
        {
            _hand.TakeHeard(way);
            await Settle();
        }
    }
}
