namespace Swardloop.Core.Diagnosis;

/// <summary>What finding and mending a fault in a guide wire is expected to cost, for a plan's atoms: an exact search along the guide.</summary>
internal sealed class GuideSearch
{
    private const int MostRowCells = 14;

    private readonly WireSearchCosts _costs;
    private readonly double _renew;
    private readonly Place[] _places;
    private readonly (int Atom, int Place, bool IsSecond)[] _of;
    private readonly double[] _mass;

    public GuideSearch(PlanAtoms plan, WireSearchCosts costs, double renew)
    {
        (_costs, _renew) = (costs, renew);
        PlanAtom[] atoms = plan.Atoms;
        _places = [.. atoms.Where(atom => atom.OnGuide is not null).Select(atom => atom.OnGuide!.Value.Place).Distinct().OrderBy(place => place.Guide).ThenBy(place => place.AtMetres).ThenBy(place => place.Kind)];
        _of = [.. Enumerable.Range(0, atoms.Length).Where(i => atoms[i].OnGuide is not null).Select(i => (i, Array.IndexOf(_places, atoms[i].OnGuide!.Value.Place), atoms[i].Kind != CauseKind.Guide))];
        _mass = new double[_places.Length];
    }

    /// <summary>Expected cost, given that the fault is there.</summary>
    /// <param name="first">Weight of each atom's first fault being there still.</param>
    /// <param name="second">Weight of its second.</param>
    public double Cost(ReadOnlySpan<double> first, ReadOnlySpan<double> second)
    {
        Array.Clear(_mass);
        double all = 0;
        foreach ((int atom, int place, bool isSecond) in _of)
        {
            double weight = isSecond ? second[atom] : first[atom];
            _mass[place] += weight;
            all += weight;
        }

        if (!(all > 0))
        {
            return _renew;
        }

        List<WireSearchCosts.Cell> row = [];
        List<double> gathered = [];
        for (int i = 0; i < _places.Length; i++)
        {
            Place place = _places[i];
            if (_mass[i] < 0.003 * all)
            {
                continue;
            }

            bool joins = row.Count > 0 && row[^1].Kind == PlaceKind.Span && place.Kind == PlaceKind.Span && gathered[^1] + _mass[i] < 1.5 * all / MostRowCells
                && Math.Abs(row[^1].ToMetres - place.FromMetres) < 1e-6;
            if (joins)
            {
                row[^1] = row[^1] with { ToMetres = place.ToMetres };
                gathered[^1] += _mass[i];
            }
            else
            {
                row.Add(new(place.Kind, place.FromMetres, place.ToMetres, 0, 0, 0, 0));
                gathered.Add(_mass[i]);
            }
        }

        _costs.SetRow([.. row]);
        return Math.Min(new LineSearch(System.Runtime.InteropServices.CollectionsMarshal.AsSpan(gathered), _costs).ExpectedCost ?? _renew, _renew);
    }
}
