using System.Text.Json;

namespace Swardloop.Browser.Tests;

/// <summary>Random sequences of typing in fields and dialogs in two tabs, leaving, loading again, going back and killing the browser, with values arriving
/// meanwhile: whatever was typed is kept, or stands where it was typed.</summary>
[Collection(ServedAppGroup.Name)]
public sealed class RandomTypingTests(ServedApp app, ITestOutputHelper output)
{
    // Two that once lost what was typed; 1,000 on request (./test --long), or as many as asked for, from a seed that is said.
    private static int[] Seeds()
    {
        int? seed = Number("SWARDLOOP_SEED"), sequences = Number("SWARDLOOP_SEQUENCES") ?? (Environment.GetEnvironmentVariable("SWARDLOOP_LONG") == "1" ? 1000 : null);
        return seed is null && sequences is null ? [2053110258, 2053110261] : [.. Enumerable.Range(seed ?? Random.Shared.Next(int.MaxValue / 2), sequences ?? 1)];

        static int? Number(string name) =>
            Environment.GetEnvironmentVariable(name) is { Length: > 0 } text ? int.Parse(text, System.Globalization.CultureInfo.InvariantCulture) : null;
    }

    [Fact]
    public async Task Nothing_typed_is_lost_whatever_happens_to_two_tabs()
    {
        int[] seeds = Seeds();
        output.WriteLine($"SWARDLOOP_SEED={string.Join(", ", seeds.Length > 3 ? seeds[..1] : seeds)}");
        string yardFile = await File.ReadAllTextAsync(Path.Combine(PublishedBuild.Root(), "examples", "sorrel-corner.yard.json"), TestContext.Current.CancellationToken);
        Guid yard = await app.AddAsync("yard", new { name = "Willowherb Weir", file = JsonSerializer.Deserialize<JsonElement>(yardFile) });
        string folder = Directory.CreateTempSubdirectory("swardloop-").FullName;
        TypingPair pair = new(app, folder);
        try
        {
            await pair.StartAsync();
            foreach (int seed in seeds)
            {
                Random random = new(seed);
                System.Diagnostics.Stopwatch watch = System.Diagnostics.Stopwatch.StartNew();
                Guid owner = await app.AddAsync("owner", new { name = "Hazel Thimble" });
                Guid @case = await app.AddAsync("case", new { yard, state = "open", complaint = "stops beside the pond" });
                await pair.BeginAsync(owner, @case);
                for (int i = random.Next(6, 12); i > 0; i--)
                {
                    await ActAsync(pair, random);
                }

                string? lost = await pair.LostAsync();
                Told($"{seed}, {pair.Done.Count} acts, {watch.Elapsed.TotalSeconds:0} s: {lost ?? "none lost"}");
                Assert.True(lost is null, $"SWARDLOOP_SEED={seed}: {lost}\n{string.Join('\n', pair.Done)}");
            }

            output.WriteLine($"{seeds.Length} sequences: {pair.Typed} texts typed, {pair.Reloads} pages loaded again, {pair.Backs} ways back, {pair.Kills} kills, {pair.Arrivals} values arrived, none lost");
        }
        finally
        {
            await pair.DisposeAsync();
            try
            {
                Directory.Delete(folder, recursive: true);
            }
            catch (IOException)
            {
                // A process of the browser outlived it by a moment and wrote once more; the folder is a temporary one.
            }
        }
    }

    // A long run is watched by the file that this names: a line for each sequence seen through.
    private static void Told(string line)
    {
        if (Environment.GetEnvironmentVariable("SWARDLOOP_PROGRESS") is { Length: > 0 } file)
        {
            File.AppendAllText(file, line + "\n");
        }
    }

    private static async Task ActAsync(TypingPair pair, Random random)
    {
        int tab = random.Next(2);
        switch (random.Next(20))
        {
            case < 7:
                await pair.TypeInFieldAsync(tab, TypingPair.Fields[random.Next(TypingPair.Fields.Count)]);
                break;
            case < 11:
                await pair.TypeInDialogAsync(tab, TypingPair.Dialogs[random.Next(TypingPair.Dialogs.Count)], leaves: random.Next(2) == 0);
                break;
            case < 13:
                await pair.LeaveAsync(tab);
                break;
            case < 15:
                await pair.ReloadAsync(tab);
                break;
            case < 17:
                await pair.BackAsync(tab);
                break;
            case < 19:
                await pair.ArriveAsync(TypingPair.Fields[random.Next(TypingPair.Fields.Count)]);
                break;
            default:
                await pair.KillAsync(isWaiting: random.Next(2) == 0);
                break;
        }
    }
}
