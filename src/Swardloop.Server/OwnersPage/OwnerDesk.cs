using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using Microsoft.EntityFrameworkCore;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;
using Swardloop.Model.Words;
using Swardloop.Server.Advising;
using Swardloop.Server.Photos;
using Swardloop.Storage;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Owners;
using Swardloop.Workshop.Records;

namespace Swardloop.Server.OwnersPage;

/// <summary>Everything behind an owner's page: what a link opens, what is asked next, and what becomes of the answers.</summary>
internal sealed class OwnerDesk(IDbContextFactory<WorkshopDatabase> databases, Journal journal, WorkshopPriors priors, PhotoWork photoWork, ComputingQueue queue, WriteTurn turn, TimeProvider clock)
{
    /// <summary>Owners answer with the rights of the desk: observations and photos, nothing that costs money.</summary>
    private static readonly Author Owner = new(Author.Owner, Role.Desk);

    // A link is for one case; whoever has it must not fill the disk with it.
    private const int MostPhotos = 200;

    /// <summary>What an address opens; null when it opens nothing: unknown, wrong secret, expired or withdrawn, all alike.</summary>
    public async Task<OwnerRoom?> OpenAsync(string? path, CancellationToken cancellation)
    {
        if (!OwnerAddress.TryRead(path, out OwnerAddress? address))
        {
            return null;
        }

        await using WorkshopDatabase database = await databases.CreateDbContextAsync(cancellation);
        RecordState? link = await StateAsync(database, address.Link, RecordKind.OwnerLink, cancellation);
        // In a conflict the careful value counts: withdrawn by anybody is withdrawn, and the earliest end is the end.
        if (!address.Opens(link?.Text("secretHash")) || link is null || link["revoked"].Values.Any(value => value.Value.ValueKind == JsonValueKind.True)
            || link["expiresAt"].Values.Count == 0
            || link["expiresAt"].Values.Any(value => value.Value.ValueKind != JsonValueKind.String || !value.Value.TryGetDateTimeOffset(out DateTimeOffset until) || until <= clock.GetUtcNow())
            || link.Reference("case") is not { } caseId || link.Reference("yard") is not { } yardId)
        {
            return null;
        }

        RecordState? @case = await StateAsync(database, caseId, RecordKind.Case, cancellation);
        RecordState? yard = await StateAsync(database, yardId, RecordKind.Yard, cancellation);
        if (@case is null || yard is null || @case.Reference("yard") != yardId)
        {
            return null;
        }

        List<StoredRecord> stored = await database.Records.AsNoTracking()
            .Where(record => record.Case == caseId && record.Kind == RecordKind.Observation).ToListAsync(cancellation);
        RecordState? rates = await StateAsync(database, Ids.Rates, RecordKind.Rates, cancellation);
        RecordState? workshop = await StateAsync(database, Ids.Workshop, RecordKind.Workshop, cancellation);
        IReadOnlyList<RecordState> observations = ObservationOrder.Sort(stored.Select(Journal.StateOf));
        Checked<CaseFile> file = CaseAssembly.CaseFileOf(@case, yard, observations, rates);
        // A yard that was redrawn under its readings: the owner can do nothing about it, and the bench shows it to those who can.
        return file.IsGood ? new(link, @case, observations, workshop, file.Value) : null;
    }

    /// <summary>The workshop's own record; null while it has none.</summary>
    public async Task<RecordState?> WorkshopAsync(CancellationToken cancellation)
    {
        await using WorkshopDatabase database = await databases.CreateDbContextAsync(cancellation);
        return await StateAsync(database, Ids.Workshop, RecordKind.Workshop, cancellation);
    }

    /// <summary>The page for what a link opens.</summary>
    /// <param name="room">What it opens.</param>
    /// <param name="path">The page's own address, from the root.</param>
    /// <param name="language">Asked for on the page; null for the link's own.</param>
    /// <param name="read">Step whose cautions were read.</param>
    /// <param name="cancellation">Ends the work.</param>
    public async Task<OwnerView> ViewAsync(OwnerRoom room, string path, string? language, string? read, CancellationToken cancellation)
    {
        OwnerTexts texts = OwnerTexts.Of(language ?? room.Link.Text("language") ?? room.Workshop?.Text("language"));
        Advice advice = await queue.AdviseAsync(room.File, await priors.FileAsync(cancellation), cancellation);
        Step? question = Question(room, advice);
        HashSet<Guid> news = News(room);
        List<OwnerAnswer> answers = [];
        foreach (RecordState observation in ObservationOrder.ThatCount(room.Observations))
        {
            if (observation["reading"].Shown is { By: Author.Owner } answer
                && ObservationJson.Read(answer.Value, "", null, new("answer")) is { } what)
            {
                string words = ObservationWords.Describe(what with { By = Person.Technician }, room.Case.Yard, texts.Words, texts.Steps);
                answers.Add(new(char.ToUpperInvariant(words[0]) + words[1..], TimeZoneInfo.ConvertTime(answer.MadeAt, clock.LocalTimeZone), !news.Contains(observation.Id)));
            }
        }

        List<StoredRecord> photos = await PhotosAsync(room, cancellation);
        foreach (RecordState photo in photos.Select(Journal.StateOf).Where(photo => photo["of"].Shown?.By == Author.Owner && IsOfRoom(room, photo)))
        {
            answers.Add(new(texts[OwnerText.APhoto], TimeZoneInfo.ConvertTime(photo["of"].Shown!.MadeAt, clock.LocalTimeZone), true) { IsPhoto = true });
        }

        answers.Sort((one, other) => one.ArrivedAt.CompareTo(other.ArrivedAt));
        return new(
            path, texts, room.Workshop?.Text("name") ?? "", room.Workshop?.Text("phone"), room.Case.Yard, advice.Finished, question,
            question is not null && read == WireName.Of(question.Kind), answers)
        {
            MostQuestions = Math.Max(1, OwnerQuestions.MostQuestions - Answered(room).Count - Steps(room.Link, "cannot").Count),
            Walk = question is null ? [] : OwnerWalk.Stretches(question, advice.Density, room.Case),
            Minutes = question is null ? 0 : StepCatalogue.Of(question.Kind).Minutes,
            PromisedOn = DateOnly.TryParseExact(room.CaseRecord.Text("promisedOn"), "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly day)
                && day >= DateOnly.FromDateTime(clock.GetLocalNow().DateTime) ? day : null,
            Last = room.Observations.Count > 0 ? room.Observations[^1].Id : null,
        };
    }

    /// <summary>What is wrong with an answer to a page's question; nothing is kept.</summary>
    public static IReadOnlyList<Problem> ProblemsOf(OwnerRoom room, OwnerView view, Func<string, string?> given, DateTimeOffset now)
    {
        List<Problem> found = [];
        for (int i = 0; i < Math.Max(1, view.Walk.Count); i++)
        {
            _ = PartOf(view.Walk.Count == 0 ? view.Question! : view.Question! with { FromMetres = view.Walk[i].FromMetres, ToMetres = view.Walk[i].ToMetres }, i, given, now, room, found);
        }

        return found;
    }

    /// <summary>What was answered to one stretch of a walk, or to a question that is no walk.</summary>
    private static JsonObject? PartOf(Step step, int index, Func<string, string?> given, DateTimeOffset now, OwnerRoom room, List<Problem> found)
    {
        ProblemList problems = new("answer");
        string suffix = OwnerWalk.Suffix(index);
        // What else was said stands once, with the first stretch.
        JsonObject? reading = OwnerQuestions.Answer(step, name => name == OwnerQuestions.Note ? index == 0 ? given(name) : null : given(name + suffix), now, room.Case.Yard, problems);
        found.AddRange(problems.Kept.Select(problem => problem with { Place = problem.Place + suffix }));
        return reading;
    }

    /// <summary>Whether the same question was answered from another page after this one was made.</summary>
    /// <param name="room">What the link opens.</param>
    /// <param name="stepName">The question.</param>
    /// <param name="lastText">The last observation that the page knew.</param>
    /// <param name="once">The sending: the same one again is no other.</param>
    public static bool IsAnsweredMeanwhile(OwnerRoom room, string? stepName, string? lastText, Guid once)
    {
        int known = Guid.TryParse(lastText, out Guid last) ? room.Observations.ToList().FindIndex(one => one.Id == last) : -1;
        return lastText is not null && room.Observations.Skip(known + 1).Any(one => !Enumerable.Range(0, OwnerWalk.MostStretches).Any(i => OwnerWalk.IdOf(once, i) == one.Id) && one["reading"].Shown is { By: Author.Owner } answer
            && ObservationJson.Read(answer.Value, "", null, new("answer")) is { } what && WireName.Of(what.Step) == stepName);
    }

    private async Task<List<StoredRecord>> PhotosAsync(OwnerRoom room, CancellationToken cancellation)
    {
        Guid? yard = room.Link.Reference("yard");
        await using WorkshopDatabase database = await databases.CreateDbContextAsync(cancellation);
        return await database.Records.AsNoTracking().Where(record => record.Kind == RecordKind.Photo && record.Yard == yard).ToListAsync(cancellation);
    }

    private static bool IsOfRoom(OwnerRoom room, RecordState photo) =>
        photo.Reference("of") is { } of && (of == room.CaseRecord.Id || room.Observations.Any(observation => observation.Id == of));

    /// <summary>Takes an answer in.</summary>
    /// <returns>Null when it is kept; otherwise what is wrong with it.</returns>
    public async Task<IReadOnlyList<Problem>?> AnswerAsync(
        OwnerRoom room, string? stepName, Guid once, Func<string, string?> given, CancellationToken cancellation)
    {
        ProblemList problems = new("answer");
        if (StepNamed(stepName) is not { } kind || !StepCatalogue.Of(kind).OwnerMay)
        {
            problems.Add("step", $"got \"{stepName}\"", "a step that an owner may take");
            return problems.Kept;
        }

        // The places are those that stood on the page, which may be older than the case.
        List<Problem> found = [];
        List<(JsonObject Reading, Guid Once)> parts = [];
        for (int i = 0; i == 0 || (i < OwnerWalk.MostStretches && kind == StepKind.Look && Metres("fromM" + OwnerWalk.Suffix(i)) is not null); i++)
        {
            string suffix = OwnerWalk.Suffix(i);
            Step step = new(kind)
            {
                By = Person.Owner,
                AtMetres = Metres("atM"),
                FromMetres = Metres("fromM" + suffix),
                ToMetres = Metres("toM" + suffix),
                Guide = given("guide") is { Length: > 0 } guide ? guide : null,
                Place = given("place") == WireName.Of(StartPlace.AtWire) ? StartPlace.AtWire
                    : given("place") == WireName.Of(StartPlace.MidLawn) ? StartPlace.MidLawn : null,
            };
            if (PartOf(step, i, given, clock.GetUtcNow(), room, found) is { } reading)
            {
                parts.Add((reading, OwnerWalk.IdOf(once, i)));
            }
        }

        if (found.Count > 0)
        {
            return found; // all of a walk or nothing
        }

        Guid? last = room.Observations.Count > 0 ? room.Observations[^1].Id : null;
        foreach ((JsonObject reading, Guid part) in parts)
        {
            if (await IsOfThisCaseAsync(room, part, cancellation) is false)
            {
                problems.Add("once", "is something else's", "an id of its own");
                return problems.Kept;
            }

            Dictionary<string, JsonElement> set = new()
            {
                ["yard"] = Element(room.Link.Reference("yard")),
                ["case"] = Element(room.CaseRecord.Id),
                ["reading"] = JsonSerializer.SerializeToElement(reading),
            };
            if (last is not null)
            {
                set["after"] = Element(last);
            }

            // The observation is named after the sending, so that a second touch of the button names the same one. Sent again with another
            // answer, after going back in the browser, it is a correction.
            Guid id = part;
            if (room.Observations.FirstOrDefault(observation => observation.Id == part) is { } earlier)
            {
                if (IsSameAnswer(earlier, reading))
                {
                    continue;
                }

                id = Guid.CreateVersion7(clock.GetUtcNow());
                set["corrects"] = Element(part);
            }

            Change change = new(id, RecordKind.Observation, id, set, new Dictionary<string, IReadOnlyList<Guid>>(), clock.GetUtcNow());
            ChangeResult result = await journal.TakeInAsync(change, "", Owner, cancellation);
            if (result.Status == ChangeStatus.Refused)
            {
                return [.. result.Problems.Select(problem => new Problem("answer", problem.Place, problem.Message, problem.Allowed))];
            }

            last = id;
        }

        return null;

        double? Metres(string name) =>
            double.TryParse(given(name), NumberStyles.Float, CultureInfo.InvariantCulture, out double metres) ? metres : null;
    }

    /// <summary>Takes a photo in, re-encoded: what else was in the file, its place data first of all, stays outside.</summary>
    /// <returns>Whether it was a photo, and is this case's.</returns>
    public async Task<bool> PhotoAsync(OwnerRoom room, Guid once, Func<Stream> open, CancellationToken cancellation)
    {
        if (await IsOfThisCaseAsync(room, once, cancellation) is { } isOurs)
        {
            return isOurs; // sent again
        }

        await using (WorkshopDatabase database = await databases.CreateDbContextAsync(cancellation))
        {
            if (await database.Records.CountAsync(one => one.Kind == RecordKind.Photo && one.Case == room.CaseRecord.Id, cancellation) >= MostPhotos)
            {
                return false;
            }
        }

        if (await photoWork.ReadAsync(open, cancellation) is not { } photo)
        {
            return false;
        }

        await using (WorkshopDatabase database = await databases.CreateDbContextAsync(cancellation))
        {
            using IDisposable mine = await turn.TakeAsync(cancellation);
            if (!await database.Photos.AnyAsync(one => one.Photo == once, cancellation))
            {
                database.Photos.Add(new() { Photo = once, MediaType = PhotoFile.MediaType, Bytes = photo.Bytes, Small = photo.Small });
                await database.SaveChangesAsync(cancellation);
            }
        }

        // The bytes first: a record without its photo would promise what is not there, bytes without a record are seen by nobody. If the power
        // goes between the two, the photo sent again gets its record.
        DateTimeOffset now = clock.GetUtcNow();
        Dictionary<string, JsonElement> set = new()
        {
            ["of"] = Element(room.CaseRecord.Id),
            ["yard"] = Element(room.Link.Reference("yard")),
            ["takenAt"] = JsonSerializer.SerializeToElement(now),
        };
        ChangeResult result = await journal.TakeInAsync(
            new(once, RecordKind.Photo, once, set, new Dictionary<string, IReadOnlyList<Guid>>(), now), "", Owner, cancellation);
        return result.Status != ChangeStatus.Refused;
    }

    /// <summary>Notes that the owner cannot do a step, and why; neither it nor what hangs on the same is asked again. The workshop and its advice
    /// hear of it as of an answer.</summary>
    public async Task CannotAsync(OwnerRoom room, string? stepName, string? why, CancellationToken cancellation)
    {
        if (StepNamed(stepName) is not { } kind || Steps(room.Link, "cannot").Contains(kind))
        {
            return;
        }

        OwnerHindrance hindrance = WireName.Words<OwnerHindrance>().FirstOrDefault(word => word.Key == why).Value;
        string cannot = string.Join(' ', Steps(room.Link, "cannot").Append(kind).Concat(OwnerQuestions.AlsoHindered(kind, hindrance)).Distinct().Select(WireName.Of));
        Change change = new(
            Guid.CreateVersion7(clock.GetUtcNow()), RecordKind.OwnerLink, room.Link.Id,
            new Dictionary<string, JsonElement> { ["cannot"] = JsonSerializer.SerializeToElement(cannot) },
            new Dictionary<string, IReadOnlyList<Guid>> { ["cannot"] = room.Link["cannot"].Ids },
            clock.GetUtcNow());
        await journal.TakeInAsync(change, "", Owner, cancellation);
        JsonObject reading = new() { [StepCatalogue.Of(kind).IsRepair ? "repair" : "test"] = WireName.Of(kind), ["value"] = ObservationJson.NotDone, ["by"] = "owner" };
        reading["at"] = clock.GetUtcNow().ToString("yyyy-MM-dd'T'HH:mm:sszzz", CultureInfo.InvariantCulture);
        if (hindrance != OwnerHindrance.NotSaid)
        {
            reading["note"] = OwnerTexts.English[OwnerQuestions.WordsOf(hindrance)];
        }

        Guid id = Guid.CreateVersion7(clock.GetUtcNow());
        Dictionary<string, JsonElement> set = new()
        {
            ["yard"] = Element(room.Link.Reference("yard")),
            ["case"] = Element(room.CaseRecord.Id),
            ["reading"] = JsonSerializer.SerializeToElement(reading),
        };
        if (room.Observations.Count > 0)
        {
            set["after"] = Element(room.Observations[^1].Id);
        }

        await journal.TakeInAsync(new(id, RecordKind.Observation, id, set, new Dictionary<string, IReadOnlyList<Guid>>(), clock.GetUtcNow()), "", Owner, cancellation);
    }

    /// <summary>Whether the record of that id is this case's: a link opens its own case only. Null when there is no such record.</summary>
    private async Task<bool?> IsOfThisCaseAsync(OwnerRoom room, Guid record, CancellationToken cancellation)
    {
        await using WorkshopDatabase database = await databases.CreateDbContextAsync(cancellation);
        if (await database.Records.AsNoTracking().FirstOrDefaultAsync(one => one.Id == record, cancellation) is not { } stored)
        {
            return null;
        }

        RecordState state = Journal.StateOf(stored);
        return state.Kind switch
        {
            RecordKind.Observation => state.Reference("case") == room.CaseRecord.Id,
            // A photo of the case may have been put to one of its observations since.
            RecordKind.Photo => state.Reference("of") is { } of && (of == room.CaseRecord.Id || room.Observations.Any(observation => observation.Id == of)),
            _ => false,
        };
    }

    private static bool IsSameAnswer(RecordState earlier, JsonObject reading)
    {
        if (earlier.Value("reading") is not { } value || JsonObject.Create(value) is not { } known)
        {
            return false;
        }

        JsonObject now = reading.DeepClone().AsObject();
        known.Remove("at");
        now.Remove("at");
        return JsonNode.DeepEquals(known, now);
    }

    private static Step? Question(OwnerRoom room, Advice advice)
    {
        return OwnerQuestions.Next(advice, Steps(room.Link, "ask"), Steps(room.Link, "cannot"), Answered(room));
    }

    /// <summary>What was answered by the link.</summary>
    private static List<StepKind> Answered(OwnerRoom room)
    {
        // What the workshop asks for is answered once it was answered after the link was made.
        List<StepKind> answered = [];
        foreach (RecordState observation in room.Observations.Where(one => one.Id.CompareTo(room.Link.Id) > 0))
        {
            if (observation["reading"].Shown is { By: Author.Owner } answer && ObservationJson.Read(answer.Value, "", null, new("answer")) is { } what
                and not Observation.NotDone
                && !(what.Step == StepKind.Look && answered.Contains(StepKind.Look))) // a walk is one question, however many stretches it has
            {
                answered.Add(what.Step);
            }
        }

        return answered;
    }

    /// <summary>The owner's answers since anybody of the workshop added to the case or looked at it.</summary>
    private static HashSet<Guid> News(OwnerRoom room)
    {
        Guid? lookedAt = room.CaseRecord.Reference("lookedAt");
        return [.. room.Observations.Reverse()
            .TakeWhile(observation => observation["reading"].Shown?.By == Author.Owner && observation.Id != lookedAt)
            .Select(observation => observation.Id)];
    }

    private static List<StepKind> Steps(RecordState link, string field) =>
        [.. (link.Text(field) ?? "").Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(StepNamed).OfType<StepKind>()];

    private static StepKind? StepNamed(string? name) =>
        WireName.Words<StepKind>().Where(word => word.Key == name).Select(word => (StepKind?)word.Value).FirstOrDefault();

    private static async Task<RecordState?> StateAsync(WorkshopDatabase database, Guid id, RecordKind kind, CancellationToken cancellation) =>
        await database.Records.AsNoTracking().FirstOrDefaultAsync(record => record.Id == id && record.Kind == kind, cancellation) is { } stored
            ? Journal.StateOf(stored)
            : null;

    private static JsonElement Element(Guid? id) => JsonSerializer.SerializeToElement(id);
}

/// <summary>What an owner's link opens.</summary>
/// <param name="Link">The link's record.</param>
/// <param name="CaseRecord">The case's record.</param>
/// <param name="Observations">Its observations, in order.</param>
/// <param name="Workshop">The workshop's record; null while it has none.</param>
/// <param name="File">The case as a file.</param>
internal sealed record OwnerRoom(
    RecordState Link, RecordState CaseRecord, IReadOnlyList<RecordState> Observations, RecordState? Workshop, CaseFile File)
{
    /// <summary>The case as the engine takes it.</summary>
    public ServiceCase Case => File.Case;

    /// <summary>Whether the case is closed: its page still shows what became of it, and takes nothing more.</summary>
    public bool IsClosed => CaseRecord.Text("state") == "closed";
}
