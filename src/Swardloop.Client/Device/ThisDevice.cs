using System.Net;
using System.Text.Json;
using Swardloop.Model.Checks;
using Swardloop.Workshop;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;
using Swardloop.Workshop.Sync;

namespace Swardloop.Client.Device;

/// <summary>What this device knows of the workshop and does for it: shows records, writes changes down the moment they are made, delivers them
/// when there is a connection, and fetches what others did.</summary>
public sealed partial class ThisDevice(IDevicePage page, WorkshopServer server, TimeProvider clock) : IDisposable
{
    // What the tab that talks to the server tells the others of its connection.
    private const string Reached = "reached", Apart = "apart";

    // What a tab asks the one that talks.
    private const string Look = "look";

    private const int PageSize = 500;
    private const int StartedOverAfterSeconds = 30;

    private static readonly TimeSpan BenchFreshness = TimeSpan.FromSeconds(15);

    /// <summary>How far a device's clock may be from the server's before it is said and set right: answers take seconds, people's clocks are minutes off.</summary>
    private static readonly TimeSpan ClockTolerance = TimeSpan.FromMinutes(5);

    private readonly SemaphoreSlim _wake = new(0);
    private readonly SemaphoreSlim _turn = new(1);
    private readonly SortedDictionary<Guid, WaitingChange> _unsaved = [];
    private List<DeviceWrite>? _heardWhileLoading;
    private bool _isLeader;
    private bool _isListening;
    private bool _isOpen;

    /// <summary>Something that is shown has changed.</summary>
    public event Action? Changed;

    /// <summary>Who is signed in here; null before the workshop was ever reached.</summary>
    public Me? Me { get; private set; }

    /// <summary>Whether the store is open and the records are there.</summary>
    public bool IsReady { get; private set; }

    /// <summary>Whether the server answered the last time it was asked.</summary>
    public bool IsConnected { get; private set; }

    /// <summary>Whether all that the server had was fetched at least once.</summary>
    public bool IsComplete { get; private set; }

    /// <summary>Why this device cannot write, in the browser's words; null while it can.</summary>
    public string? StoreFault { get; private set; }

    /// <summary>Changes that the store did not take: they are on the screen, in this tab's memory and nowhere else.</summary>
    public IReadOnlyCollection<WaitingChange> Unsaved => _unsaved.Values;

    /// <summary>Whether the store is full.</summary>
    public bool IsFull => StoreFault?.Contains("quota", StringComparison.OrdinalIgnoreCase) == true;

    /// <summary>Room in the store; null before it was asked.</summary>
    public DeviceRoom? Room { get; private set; }

    /// <summary>By how much this device's clock is ahead of the server's (behind when negative); null when it is right, or not known.</summary>
    public TimeSpan? ClockAhead => server.ClockAhead is { } ahead && ahead.Duration() > ClockTolerance ? ahead : null;

    /// <summary>What the server last answered of today's work; null before.</summary>
    public Bench? Bench { get; private set; }

    /// <summary>When that was.</summary>
    public DateTimeOffset? BenchAt { get; private set; }

    /// <summary>How often each cause is met in this workshop: its priors file (UTF-8); empty for the stated defaults.</summary>
    public ReadOnlyMemory<byte> PriorsFile { get; private set; }

    /// <summary>Records and changes.</summary>
    public Replica Replica { get; private set; } = new([], [], 0);

    /// <summary>Now, with the device's offset: by its own clock, set right by the server's where that is known to be far off.</summary>
    public DateTimeOffset Now => clock.GetLocalNow() - (ClockAhead ?? TimeSpan.Zero);

    /// <summary>The server, for what needs a connection.</summary>
    public WorkshopServer Server => server;

    /// <summary>The browser.</summary>
    public IDevicePage Page => page;

    /// <summary>What a person of this role may do.</summary>
    public bool MayWrite(RecordKind kind) => Me?.Role is { } role && RecordRights.MayWrite(role, kind);

    /// <summary>Starts: what is here is shown at once, the server is asked beside it.</summary>
    public async Task StartAsync()
    {
        page.OnConnection(Wake);
        if (page.Remembered("me") is { } remembered && JsonSerializer.Deserialize(remembered, WorkshopJson.Default.Me) is { Email: not null } me)
        {
            Me = me;
            await OpenAsync().ConfigureAwait(true);
        }

        await AskWhoAsync().ConfigureAwait(true);
        _ = RunAsync();
    }

    /// <summary>Signs in, or makes the first account.</summary>
    /// <exception cref="ServerRefusalException">Refused, with the reason.</exception>
    /// <exception cref="HttpRequestException">No connection.</exception>
    public async Task EnterAsync(Func<WorkshopServer, Task<Me>> enter)
    {
        await MeetAsync(await enter(server).ConfigureAwait(true)).ConfigureAwait(true);
        Wake();
    }

    /// <summary>Signs out. What waits stays on the device and goes out when the same person is back.</summary>
    public async Task LeaveAsync()
    {
        await server.SignOutAsync().ConfigureAwait(true);
        page.Remember("me", null);
        page.Reload();
    }

    /// <summary>Asks the server who we are, and whether it is the workshop that we know.</summary>
    public async Task AskWhoAsync()
    {
        try
        {
            await MeetAsync(await server.MeAsync().ConfigureAwait(true)).ConfigureAwait(true);
            IsConnected = true;
        }
        catch (HttpRequestException)
        {
            IsConnected = false;
        }
        catch (ServerRefusalException)
        {
            IsConnected = false;
        }

        Changed?.Invoke();
    }

    /// <summary>Writes a change down. When it returns, it is on this device's disk.</summary>
    /// <param name="record">The record.</param>
    /// <param name="kind">Its kind.</param>
    /// <param name="set">New values; null clears.</param>
    public Task ChangeAsync(Guid record, RecordKind kind, params IReadOnlyList<(string Field, JsonElement? Value)> set) =>
        KeepAsync([Replica.ChangeOf(record, kind, set.ToDictionary(each => each.Field, each => each.Value ?? Json.Null), Now)]);

    /// <summary>Writes changes down in one go, in their order. When the store does not take them they stay in memory, are shown and sent like
    /// the others, and <see cref="Unsaved"/> says so.</summary>
    public async Task KeepAsync(IReadOnlyList<Change> changes)
    {
        (string name, string email) = (Me?.Name ?? "", Me?.Email ?? "");
        await KeepAsync(DeviceWrite.Made([.. changes.Select(change => new WaitingChange(change, name, email))])).ConfigureAwait(true);
        Wake();
    }

    /// <summary>What is wrong with a change before it is kept; the server would say the same.</summary>
    public IReadOnlyList<Problem> ProblemsOf(Change change)
    {
        ProblemList problems = new("");
        ChangeChecks.Check(change, Replica.Get(change.Record, change.Kind), "", problems);
        return problems.Kept;
    }

    /// <summary>Sends a refused change again, or throws it away.</summary>
    public async Task SettleRefusedAsync(Guid change, bool again)
    {
        await TakeAsync(again ? Replica.TryingAgain(change) : Replica.ThrowingAway(change)).ConfigureAwait(true);
        Wake();
    }

    /// <summary>A person wants the connection looked at now, in whichever tab talks to the server.</summary>
    public void LookNow()
    {
        page.Tell(Look);
        Wake();
    }

    /// <summary>Looks at the connection now.</summary>
    public void Wake()
    {
        if (_wake.CurrentCount == 0)
        {
            _wake.Release();
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _wake.Dispose();
        _turn.Dispose();
    }

    private static string StoreName(Guid workshop) => $"swardloop-{workshop:N}";

    private async Task MeetAsync(Me met)
    {
        bool isAnother = _isOpen && Me is { } known && known.Workshop != met.Workshop;
        if (met.Email is not null)
        {
            page.Remember("me", JsonSerializer.Serialize(met, WorkshopJson.Default.Me));
        }

        if (isAnother)
        {
            if (met.Email is null)
            {
                page.Remember("me", null);
            }

            page.Reload(); // another workshop's data have another store
            return;
        }

        Me = met;
        if (met.Email is not null)
        {
            await OpenAsync().ConfigureAwait(true);
        }
    }

    private async Task OpenAsync()
    {
        if (_isOpen)
        {
            return;
        }

        _isOpen = true;
        string name = StoreName(Me!.Workshop);
        try
        {
            await page.OpenAsync(name, HearOtherTab).ConfigureAwait(true);
            await LoadAsync().ConfigureAwait(true);
        }
#pragma warning disable CA1031 // Whatever the browser's store has against it: the page goes on and says that it cannot save.
        catch (Exception fault)
#pragma warning restore CA1031
        {
            StoreFault = fault.Message;
        }

        IsReady = true;
        page.Lead(name, () => _ = TakeLeadAsync());
        Changed?.Invoke();
    }

    private async Task LoadAsync()
    {
        // A change written while the store is being read would be in neither the old memory nor the new; what other tabs say meanwhile comes after.
        await _turn.WaitAsync().ConfigureAwait(true);
        List<DeviceWrite> heard = _heardWhileLoading = [];
        try
        {
            await ReadStoreAsync().ConfigureAwait(true);
        }
        finally
        {
            _heardWhileLoading = null;
            heard.ForEach(write => Replica.Apply(write));
            Replica.Apply(DeviceWrite.Made([.. _unsaved.Values]));
            _turn.Release();
        }
    }

    private async Task ReadStoreAsync()
    {
        string records = await page.LoadAsync("records").ConfigureAwait(true), waiting = await page.LoadAsync("waiting").ConfigureAwait(true);
        string? next = await page.KeptAsync("next").ConfigureAwait(true);
        Replica = new(
            JsonSerializer.Deserialize(records, WorkshopJson.Default.IReadOnlyListRecordState) ?? [],
            JsonSerializer.Deserialize(waiting, WorkshopJson.Default.IReadOnlyListWaitingChange) ?? [],
            next is null ? 0 : long.Parse(next, System.Globalization.CultureInfo.InvariantCulture),
            ReadSending(await page.LoadAsync("sending").ConfigureAwait(true)));
        IsComplete = next is not null;
        if (await page.KeptAsync("priors").ConfigureAwait(true) is { } priors)
        {
            ReadPriors(priors);
        }

        if (await page.KeptAsync("bench").ConfigureAwait(true) is { } bench)
        {
            Bench = JsonSerializer.Deserialize(bench, WorkshopJson.Default.Bench);
            BenchAt = await page.KeptAsync("bench-at").ConfigureAwait(true) is { } at && DateTimeOffset.TryParse(
                at, System.Globalization.CultureInfo.InvariantCulture, out DateTimeOffset when) ? when.ToLocalTime() : null;
        }
    }

    private async Task TakeLeadAsync()
    {
        // The tab that led before may have written after its last news was heard here.
        try
        {
            await LoadAsync().ConfigureAwait(true);
        }
#pragma warning disable CA1031 // A store that cannot be read is said; what is typed can still reach the workshop.
        catch (Exception fault)
#pragma warning restore CA1031
        {
            StoreFault = fault.Message;
        }

        _isLeader = true;
        Changed?.Invoke();
        Wake();
    }

    private void HearOtherTab(string news)
    {
        if (news == Look)
        {
            Wake();
            return;
        }

        if (news is Reached or Apart)
        {
            IsConnected = news == Reached && Me?.Email is not null;
            Changed?.Invoke();
            return;
        }

        if (JsonSerializer.Deserialize(news, WorkshopJson.Default.DeviceWrite) is not { } write)
        {
            return;
        }

        if (_heardWhileLoading is { } later)
        {
            later.Add(write);
            return;
        }

        Replica.Apply(write);
        foreach (Guid gone in write.Gone)
        {
            _unsaved.Remove(gone);
        }

        if (write.Waiting.Count > 0)
        {
            Wake();
        }

        Changed?.Invoke();
    }

    /// <summary>Writes changes of a person down, or holds them in memory.</summary>
    private async Task KeepAsync(DeviceWrite made)
    {
        try
        {
            await WriteAsync(made).ConfigureAwait(true);
        }
#pragma warning disable CA1031 // Whatever the store has against it: what a person typed stays, and the page says that it is not saved.
        catch (Exception)
#pragma warning restore CA1031
        {
            foreach (WaitingChange waiting in made.Waiting)
            {
                _unsaved[waiting.Change.Id] = waiting;
            }

            Replica.Apply(made);
            Renew();
        }
    }

    /// <summary>Tries again to write down what the store did not take.</summary>
    private async Task SaveUnsavedAsync()
    {
        foreach (WaitingChange waiting in _unsaved.Values.ToArray())
        {
            await WriteAsync(DeviceWrite.Made(waiting)).ConfigureAwait(true);
            _unsaved.Remove(waiting.Change.Id);
        }
    }

    /// <summary>Writes down what the server answered to changes. When the store is full, what was confirmed leaves it all the same, and so makes
    /// room; its records come again with the next page. What cannot even be deleted is sent again after the next start, and taken in once.</summary>
    private async Task TakeAsync(DeviceWrite taken)
    {
        try
        {
            await WriteAsync(taken).ConfigureAwait(true);
        }
#pragma warning disable CA1031 // See above: nothing is lost by going on.
        catch (Exception)
        {
            try
            {
                await WriteAsync(taken with { Records = [], Next = null }).ConfigureAwait(true);
            }
            catch (Exception)
            {
                // StoreFault says it.
            }
#pragma warning restore CA1031

            Replica.Apply(taken);
        }

        foreach (Guid gone in taken.Gone)
        {
            _unsaved.Remove(gone);
        }

        foreach (WaitingChange refused in taken.Waiting.Where(waiting => _unsaved.ContainsKey(waiting.Change.Id)))
        {
            _unsaved[refused.Change.Id] = refused;
        }

        Renew();
    }

    private void Renew()
    {
        page.AskBeforeLeaving(_unsaved.Count > 0);
        Changed?.Invoke();
    }

    private async Task WriteAsync(DeviceWrite write, params IReadOnlyList<KeyValuePair<string, string>> kept)
    {
        if (write.IsEmpty && kept.Count == 0)
        {
            return;
        }

        List<KeyValuePair<string, string>> texts = [.. kept];
        if (write.Next is { } next)
        {
            texts.Add(new("next", next.ToString(System.Globalization.CultureInfo.InvariantCulture)));
        }

        await _turn.WaitAsync().ConfigureAwait(true);
        try
        {
            await page.WriteAsync(WithPhotos(new(
                [.. write.Records.Select(record => KeyValuePair.Create(record.Id.ToString(), JsonSerializer.Serialize(record, WorkshopJson.Default.RecordState)))],
                [.. write.Waiting.Select(waiting => KeyValuePair.Create(waiting.Change.Id.ToString(), JsonSerializer.Serialize(waiting, WorkshopJson.Default.WaitingChange)))],
                [.. write.Gone.Select(gone => gone.ToString())],
                texts,
                write.IsEmpty ? null : JsonSerializer.Serialize(write, WorkshopJson.Default.DeviceWrite)), write)).ConfigureAwait(true);
            StoreFault = null;
            Replica.Apply(write);
        }
        catch (Exception fault)
        {
            StoreFault = fault.Message;
            throw;
        }
        finally
        {
            _turn.Release();
            Changed?.Invoke();
        }
    }

    private async Task RunAsync()
    {
        int seconds = 1;
        while (true)
        {
            bool went = true;
            try
            {
                if (Me?.Email is null || (!IsConnected && _isLeader))
                {
                    await AskWhoAsync().ConfigureAwait(true);
                }

                await LookAtStoreAsync().ConfigureAwait(true);
                if (Me?.Email is { } email && IsConnected)
                {
                    if (_isLeader)
                    {
                        await TalkAsync(email).ConfigureAwait(true);
                    }
                    else if (_unsaved.Count > 0 && Replica.Waiting.All(waiting => _unsaved.ContainsKey(waiting.Change.Id)))
                    {
                        // The tab that talks cannot know of these. Nothing else waits that they could build on, so they may go out from here.
                        await DeliverAsync(email).ConfigureAwait(true);
                    }
                }

                went = IsConnected;
            }
            catch (HttpRequestException)
            {
                went = false;
                IsConnected = false;
            }
            catch (ServerRefusalException refusal)
            {
                went = false;
                IsConnected = false;
                if (refusal.Status == HttpStatusCode.Unauthorized)
                {
                    Me = Me is null ? null : Me with { Name = null, Email = null, Role = null };
                }
            }
#pragma warning disable CA1031 // The loop must outlive whatever the store has against a write; the page shows StoreFault.
            catch (Exception fault)
#pragma warning restore CA1031
            {
                went = false;
                StoreFault ??= fault.Message;
            }

            if (_isLeader)
            {
                page.Tell(IsConnected ? Reached : Apart);
            }

            Changed?.Invoke();
            seconds = went ? 20 : Math.Min(60, Math.Max(1, seconds >= 60 ? 2 : seconds * 2));
            await _wake.WaitAsync(TimeSpan.FromSeconds(seconds)).ConfigureAwait(true);
            if (!went && seconds > StartedOverAfterSeconds)
            {
                seconds = 1;
            }
        }
    }

    private async Task LookAtStoreAsync()
    {
        Room = await page.RoomAsync().ConfigureAwait(true);
        if (_unsaved.Count > 0)
        {
            try
            {
                await SaveUnsavedAsync().ConfigureAwait(true);
            }
#pragma warning disable CA1031 // StoreFault says it; the next look tries again.
            catch (Exception)
#pragma warning restore CA1031
            {
            }

            Renew();
        }
    }

    /// <summary>Delivers what waits.</summary>
    /// <returns>Whether anything did.</returns>
    private async Task<bool> DeliverAsync(string email)
    {
        bool hasNews = false;
        while (Replica.Outgoing(email) is { Count: > 0 } batch)
        {
            try
            {
                await TakeAsync(Replica.Taking(await server.DeliverAsync(batch).ConfigureAwait(true))).ConfigureAwait(true);
            }
            catch (ServerRefusalException refusal) when (refusal.RefusesBody)
            {
                // One that makes no sense must not hold up the rest: each alone, and the one refused is shown with the reason.
                foreach (Change change in batch)
                {
                    await TakeAsync(Replica.Taking(await DeliverAloneAsync(change).ConfigureAwait(true))).ConfigureAwait(true);
                }
            }

            IsConnected = hasNews = true;
        }

        return hasNews;
    }

    private async Task<ChangeResults> DeliverAloneAsync(Change change)
    {
        try
        {
            return await server.DeliverAsync([change]).ConfigureAwait(true);
        }
        catch (ServerRefusalException refusal) when (refusal.RefusesBody)
        {
            IReadOnlyList<FieldProblem> problems = refusal.Problems.Count > 0 ? refusal.Problems : [new("", refusal.Message, "")];
            return new([new(change.Id, ChangeStatus.Refused, problems, null)]);
        }
    }

    /// <summary>Delivers what waits, then fetches what is new.</summary>
    private async Task TalkAsync(string email)
    {
        bool hasNews = await DeliverAsync(email).ConfigureAwait(true);
        RecordPage got;
        do
        {
            got = await server.RecordsAsync(Replica.Next, PageSize).ConfigureAwait(true);
            DeviceWrite write = Replica.Taking(got);
            hasNews |= write.Records.Count > 0;
            await WriteAsync(write).ConfigureAwait(true);
        }
        while (!got.Complete);

        IsComplete = true;
        if (!_isListening)
        {
            _isListening = true;
            page.Listen("api/events", _ => Wake(), isOpen =>
            {
                if (!isOpen)
                {
                    _isListening = false;
                    page.StopListening();
                    IsConnected = false;
                }

                Wake();
            });
        }

        // What the bench says of each case is worked out at the server a little after the news: it is asked again though nothing is new here.
        if (hasNews || Bench is null || BenchAt is not { } at || (Now - at).Duration() > BenchFreshness)
        {
            Bench = await server.BenchAsync().ConfigureAwait(true);
            BenchAt = Now;
            string priors = await server.PriorsAsync().ConfigureAwait(true);
            ReadPriors(priors);
            await WriteAsync(
                new([], [], [], null),
                new("bench", JsonSerializer.Serialize(Bench, WorkshopJson.Default.Bench)),
                new("bench-at", Now.ToString("O", System.Globalization.CultureInfo.InvariantCulture)),
                new("priors", priors)).ConfigureAwait(true);
        }

        await SendPhotosAsync(email).ConfigureAwait(true);
        await TakePhotosAlongAsync(email).ConfigureAwait(true);
    }

    private void ReadPriors(string text)
    {
        byte[] file = System.Text.Encoding.UTF8.GetBytes(text);
        if (!PriorsFile.Span.SequenceEqual(file) && Model.Advising.PriorsFile.Read(file, "priors").IsGood)
        {
            PriorsFile = file;
        }
    }
}
