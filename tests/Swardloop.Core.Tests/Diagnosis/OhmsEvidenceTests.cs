using CsCheck;
using Swardloop.Core.Diagnosis;

namespace Swardloop.Core.Tests.Diagnosis;

public sealed class OhmsEvidenceTests
{
    private static readonly Gen<(OhmsReading Reading, bool InPath)[]> Readings =
        (from nominal in Gen.Double[0.3, 8]
         from fault in Gen.Double[0, 250]
         from share in Gen.Double[0.01, 0.06]
         from error in Gen.Double[-2, 2]
         from path in Gen.Bool
         from wild in Gen.Int[0, 9]
         let deviation = 0.2 + (path ? share * fault : 0)
         select (OhmsByNumbers.Reading(wild == 0 ? 40 : nominal + (path ? 60 : 0) + (error * deviation), deviation, nominal), path)).Array[1, 3];

    // Tolerance: sums of 161 × 400 nodes against closed forms; bins that hold less than a millionth of the likelihood are left out,
    // and so is what is less likely than 1e-28: the sums end at twelve deviations of the wire's factor, where less than 1e-31 is left.
    [Fact]
    public void Likelihood_by_size_equals_numerical_integration() => Readings.Sample(
        entries =>
        {
            OhmsReading[] readings = [.. entries.Select(entry => entry.Reading)];
            bool[] inPath = [.. entries.Select(entry => entry.InPath)];
            SizeGrid sizes = SizeGrid.LogEven(1.5, 20_000, 36);
            Int128 pattern = 0;
            for (int i = 0; i < inPath.Length; i++)
            {
                pattern |= inPath[i] ? Int128.One << i : 0;
            }

            double[] actual = new OhmsEvidence(readings, 0.04, sizes).BySize(pattern);
            double[] expected = [.. sizes.Low.Zip(sizes.High, (low, high) => OhmsByNumbers.Likelihood(readings, inPath, 0.04, low, high))];
            DiagnosisScene.AssertClose(expected, actual, 2e-3, (1e-6 * expected.Max()) + 1e-28);
        },
        iter: 12, threads: 1);

    // The healthy wire by hand: one reading, no fault: Gauss with both spreads, beside the chance of a wrong reading.
    [Fact]
    public void Single_reading_of_a_sound_wire_is_gauss_with_both_spreads()
    {
        double expected = (0.01 / (18.42 * 5.4)) + (0.99 * OhmsByNumbers.Wires(0.04).Sum(wire =>
            wire.Share * OhmsByNumbers.Gauss(5.4 - (5 * wire.Mean), Math.Sqrt((0.3 * 0.3) + (wire.Deviation * 5 * wire.Deviation * 5)))));

        Assert.Equal(expected, new OhmsEvidence([OhmsByNumbers.Reading(5.4, 0.3, 5)], 0.04, SizeGrid.LogEven(1.5, 20_000, 36)).Healthy(), 1e-9 * expected);
    }
}
