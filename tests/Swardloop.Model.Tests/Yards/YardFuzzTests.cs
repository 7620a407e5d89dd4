using System.Text;
using System.Text.Json.Nodes;
using Swardloop.Model.Checks;
using Swardloop.Model.Yards;

namespace Swardloop.Model.Tests.Yards;

/// <summary>Mutated yard files, the same ones on every run: each is read or refused in words, none throws, and none allocates out of proportion.</summary>
public sealed class YardFuzzTests
{
    private const int Files = 100_000;
    private const long MostAllocatedBytes = 16 << 20;

    private static readonly string[] Pieces =
    [
        "null", "true", "[]", "{}", "\"\"", "-1", "0", "-0.0", "1e308", "-1e308", "1e999", "5e-324", "0.1e-1", "9999999999999999999999", "\"\\ud800\"", "\"\\u0000\"",
        "[[0,0],[1,1]]", "[[[0,0]]]", "{\"atM\":1}", "[1,2,3]", "\"copper\"", "\"swardloop-yard/9\"", "01", "+1", ".5", "NaN", "'a'", "/*", "//", "\uFEFF", "]", "}", ",", ":", "\"",
    ];

    [Fact]
    public void A_hundred_thousand_mutated_files_are_read_or_refused()
    {
        byte[][] seeds = [.. Examples.YardPaths.Select(File.ReadAllBytes), Encoding.UTF8.GetBytes(YardReadingTests.Full)];
        Random random = new(20261125);
        int good = 0;
        for (int i = 0; i < Files; i++)
        {
            byte[] seed = seeds[i % seeds.Length];
            byte[] file = i % 3 == 0 ? MutatedTree(seed, random) : MutatedBytes(seed, seeds[random.Next(seeds.Length)], random);
            long before = GC.GetAllocatedBytesForCurrentThread();
            Checked<YardFile> read;
            try
            {
                read = YardFile.Read(file, "fuzz");
            }
            catch (Exception e)
            {
                Assert.Fail($"File {i}: {e}\n{Encoding.UTF8.GetString(file)}");
                return;
            }

            long allocated = GC.GetAllocatedBytesForCurrentThread() - before;
            Assert.True(allocated < MostAllocatedBytes, $"File {i} of {file.Length} bytes took {allocated} bytes.");
            Assert.True(read.IsGood != read.Problems.Count > 0);
            Assert.DoesNotContain(read.Lines(), line => line.Any(char.IsControl) || line.Length > 1_000);
            good += read.IsGood ? 1 : 0;
            if (read.IsGood && i % 50 == 0)
            {
                Assert.Equal(read.Value.ToUtf8(), YardFile.Read(read.Value.ToUtf8(), "again").Value!.ToUtf8());
            }
        }

        // Mutations that always break the file, or never, would test little.
        Assert.InRange(good, Files / 20, Files * 19 / 20);
    }

    private static byte[] MutatedBytes(byte[] seed, byte[] other, Random random)
    {
        List<byte> bytes = [.. seed];
        for (int mutation = random.Next(1, 5); mutation > 0; mutation--)
        {
            int at = random.Next(bytes.Count);
            int length = Math.Min(random.Next(1, 40), bytes.Count - at);
            switch (random.Next(8))
            {
                case 0:
                    bytes[at] = (byte)random.Next(256);
                    break;
                case 1:
                    bytes[at] ^= (byte)(1 << random.Next(8));
                    break;
                case 2:
                    bytes.Insert(at, (byte)random.Next(256));
                    break;
                case 3:
                    bytes.RemoveRange(at, length);
                    break;
                case 4:
                    bytes.InsertRange(at, bytes.GetRange(at, length));
                    break;
                case 5:
                    bytes.InsertRange(at, Encoding.UTF8.GetBytes(Pieces[random.Next(Pieces.Length)]));
                    break;
                case 6:
                    int from = random.Next(other.Length);
                    bytes.InsertRange(at, other.AsSpan(from, Math.Min(random.Next(1, 200), other.Length - from)));
                    break;
                default:
                    // another digit: the mutation that most often leaves a file readable
                    int digit = bytes.FindIndex(at, b => b is >= (byte)'0' and <= (byte)'9');
                    bytes[Math.Max(digit, 0)] = (byte)('0' + random.Next(10));
                    break;
            }

            if (bytes.Count == 0)
            {
                break;
            }
        }

        return [.. bytes];
    }

    private static byte[] MutatedTree(byte[] seed, Random random)
    {
        JsonNode root = JsonNode.Parse(seed)!;
        List<JsonNode> places = [.. Below(root)];
        for (int mutation = random.Next(1, 4); mutation > 0; mutation--)
        {
            JsonNode place = places[random.Next(places.Count)];
            JsonNode? replacement = random.Next(3) switch
            {
                0 => JsonNode.Parse(Pieces[random.Next(24) is 10 or 11 ? 0 : random.Next(14)]),
                1 => places[random.Next(places.Count)].DeepClone(),
                _ => JsonValue.Create(Math.Round((random.NextDouble() * 200) - 20, 2)),
            };
            if (place.Parent is JsonArray array && array.IndexOf(place) is >= 0 and int index)
            {
                switch (random.Next(3))
                {
                    case 0:
                        array.RemoveAt(index);
                        break;
                    case 1:
                        array.Insert(index, replacement);
                        break;
                    default:
                        array[index] = replacement;
                        break;
                }
            }
            else if (place.Parent is JsonObject parent && parent.FirstOrDefault(property => ReferenceEquals(property.Value, place)).Key is string name)
            {
                _ = random.Next(2) == 0 && parent.Remove(name);
                parent[random.Next(4) == 0 ? "x" : name] = replacement;
            }
        }

        return Encoding.UTF8.GetBytes(root.ToJsonString());
    }

    private static IEnumerable<JsonNode> Below(JsonNode? node) => node switch
    {
        JsonObject o => o.Select(property => property.Value).OfType<JsonNode>().SelectMany(child => Below(child).Prepend(child)),
        JsonArray a => a.OfType<JsonNode>().SelectMany(child => Below(child).Prepend(child)),
        _ => [],
    };
}
