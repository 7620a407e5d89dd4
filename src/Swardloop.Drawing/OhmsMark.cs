namespace Swardloop.Drawing;

/// <summary>A resistance worth marking on the slider of extra ohms.</summary>
/// <param name="ExtraOhms">Ohms beyond the healthy loop (Ω).</param>
/// <param name="Words">What it is.</param>
/// <param name="Sign">A letter-like sign that tells it from the others.</param>
public sealed record OhmsMark(double ExtraOhms, string Words, string Sign);
