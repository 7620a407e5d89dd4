using System.Globalization;
using System.Text.Json;
using Swardloop.Client.Device;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;
using Swardloop.Workshop.Records;
using Swardloop.Workshop.Sync;

namespace Swardloop.Client.Cases;

/// <summary>A case as one page shows it, put together from this device's records. What advice is asked for is exactly the case file that is
/// exported, so that the command line says the same.</summary>
public sealed class CaseView
{
    private CaseView(RecordState @case, RecordState yard, IReadOnlyList<RecordState> all, IReadOnlyList<RecordState> counting, Checked<CaseFile> file) =>
        (Case, Yard, All, Counting, File) = (@case, yard, all, counting, file);

    /// <summary>The case.</summary>
    public RecordState Case { get; }

    /// <summary>Its yard.</summary>
    public RecordState Yard { get; }

    /// <summary>All observations in order, corrected and struck ones too.</summary>
    public IReadOnlyList<RecordState> All { get; }

    /// <summary>Those that count, in order: the index of one is its index in the file and in the advice.</summary>
    public IReadOnlyList<RecordState> Counting { get; }

    /// <summary>The case file, or what is wrong with the records.</summary>
    public Checked<CaseFile> File { get; }

    /// <summary>A case; null when this device does not have it or its yard.</summary>
    /// <param name="replica">The device's records.</param>
    /// <param name="id">The case.</param>
    /// <param name="shelf">Yards read before.</param>
    /// <param name="whatIf">A reading that is only tried; null for none.</param>
    public static CaseView? Of(Replica replica, Guid id, YardShelf shelf, JsonElement? whatIf = null)
    {
        if (replica[id] is not { Kind: RecordKind.Case } @case || @case.Reference("yard") is not { } yardId || replica[yardId] is not { } yard)
        {
            return null;
        }

        List<RecordState> observations = [.. replica.OfYard(yardId, RecordKind.Observation).Where(observation => observation.Reference("case") == id)];
        IReadOnlyList<RecordState> ordered = ObservationOrder.Sort(observations);
        if (whatIf is { } reading)
        {
            observations.Add(Tried(reading, ordered.Count > 0 ? ordered[^1].Id : null));
        }

        return new(@case, yard, ordered, ObservationOrder.ThatCount(observations), CaseAssembly.CaseFileOf(@case, yard, observations, replica[Ids.Rates], shelf));
    }

    /// <summary>A change that adds an observation to a case, after the last one that this device shows.</summary>
    /// <param name="replica">The device's records.</param>
    /// <param name="yard">The yard.</param>
    /// <param name="case">The case; null for a reading of the yard's history.</param>
    /// <param name="reading">What was seen.</param>
    /// <param name="corrects">The observation it stands for; null for a new one.</param>
    /// <param name="now">By the device's clock.</param>
    /// <param name="id">Id of the observation; null for a new one.</param>
    public static Change Observe(Replica replica, Guid yard, Guid? @case, JsonElement reading, Guid? corrects, DateTimeOffset now, Guid? id = null)
    {
        Dictionary<string, JsonElement> set = new() { ["yard"] = Json.Text(yard.ToString()), ["reading"] = reading };
        if (@case is { } caseId)
        {
            set["case"] = Json.Text(caseId.ToString());
            IReadOnlyList<RecordState> before = ObservationOrder.Sort(
                replica.OfYard(yard, RecordKind.Observation).Where(observation => observation.Reference("case") == caseId));
            if (before.Count > 0)
            {
                set["after"] = Json.Text(before[^1].Id.ToString());
            }
        }

        if (corrects is { } corrected)
        {
            set["corrects"] = Json.Text(corrected.ToString());
        }

        return replica.ChangeOf(id ?? replica.NewId(now), RecordKind.Observation, set, now);
    }

    /// <summary>A step that could not be done, where it was to be done, as an observation.</summary>
    public static JsonElement NotDone(Core.Diagnosis.Step step, DateTimeOffset now)
    {
        System.Text.Json.Nodes.JsonObject json = ObservationJson.ToJson(new Core.Diagnosis.Observation.NotDone(step));
        json["at"] = MomentText(now);
        return Json.Of(json);
    }

    /// <summary>A moment as records hold it.</summary>
    public static string MomentText(DateTimeOffset at) => at.ToString("yyyy-MM-dd'T'HH:mm:sszzz", CultureInfo.InvariantCulture);

    private static RecordState Tried(JsonElement reading, Guid? after)
    {
        // The greatest id there is: it stands last whatever the clock says.
        Guid id = new("ffffffff-ffff-7fff-bfff-ffffffffffff");
        Dictionary<string, JsonElement> set = new() { ["reading"] = reading };
        if (after is { } last)
        {
            set["after"] = Json.Text(last.ToString());
        }

        return RecordState.New(id, RecordKind.Observation)
            .With(new(id, RecordKind.Observation, id, set, new Dictionary<string, IReadOnlyList<Guid>>(), DateTimeOffset.UnixEpoch), "");
    }
}
