namespace Swardloop.Core.MowerRun;

/// <summary>How much of a lawn is mown after some hours of mowing, over many runs.</summary>
/// <param name="Hours">Hours of mowing; charging is not counted.</param>
/// <param name="Low">Share of the lawn's area that 19 runs of 20 exceed.</param>
/// <param name="Median">Share that half the runs exceed.</param>
/// <param name="High">Share that one run of 20 exceeds.</param>
public sealed record MownShare(double Hours, double Low, double Median, double High);
