namespace Swardloop.Workshop.Records;

/// <summary>Puts a case's observations in the order in which they were made, whatever the clocks said: each stands after the one its maker
/// had seen last (<c>after</c>); of two that did not know of each other, the one with the smaller id stands first.</summary>
public static class ObservationOrder
{
    /// <summary>Observations in order; none is left out, whatever it names.</summary>
    public static IReadOnlyList<RecordState> Sort(IEnumerable<RecordState> observations)
    {
        SortedDictionary<Guid, RecordState> waiting = [];
        foreach (RecordState observation in observations)
        {
            waiting[observation.Id] = observation;
        }

        ILookup<Guid?, Guid> followers = waiting.Values.ToLookup(
            observation => observation.Reference("after") is { } after && waiting.ContainsKey(after) ? after : (Guid?)null,
            observation => observation.Id);
        List<RecordState> ordered = new(waiting.Count);
        // Smallest id first among those whose predecessor stands already.
        SortedSet<Guid> ready = [.. followers[null]];
        while (waiting.Count > 0)
        {
            // A ring of "after" can only be made on purpose; it is broken at its smallest id.
            Guid next = ready.Count > 0 ? ready.Min : waiting.Keys.First();
            ready.Remove(next);
            if (waiting.Remove(next, out RecordState? observation))
            {
                ordered.Add(observation);
                ready.UnionWith(followers[next]);
            }
        }

        return ordered;
    }

    /// <summary>What counts of a case's observations: those struck out are gone, a correction stands where the corrected one stood.</summary>
    /// <param name="observations">All of the case, in any order.</param>
    /// <returns>The observations that count, in order.</returns>
    public static IReadOnlyList<RecordState> ThatCount(IEnumerable<RecordState> observations)
    {
        IReadOnlyList<RecordState> all = Sort(observations);
        Dictionary<Guid, RecordState> correction = [];
        foreach (RecordState observation in all)
        {
            if (observation.Reference("corrects") is { } corrected && !IsStruck(observation))
            {
                correction[corrected] = observation; // the last one wins, and shows in the list as the last one
            }
        }

        HashSet<Guid> known = [.. all.Select(observation => observation.Id)];
        List<RecordState> counting = [];
        foreach (RecordState first in all)
        {
            if (first.Reference("corrects") is { } corrected && known.Contains(corrected))
            {
                continue;
            }

            RecordState now = first;
            HashSet<Guid> passed = [first.Id];
            while (correction.TryGetValue(now.Id, out RecordState? better) && passed.Add(better.Id))
            {
                now = better;
            }

            if (!IsStruck(now))
            {
                counting.Add(now);
            }
        }

        return counting;
    }

    private static bool IsStruck(RecordState observation) => observation.Text("struck") is not null;
}
