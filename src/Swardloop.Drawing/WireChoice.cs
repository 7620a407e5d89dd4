using Swardloop.Core.Conductors;

namespace Swardloop.Drawing;

/// <summary>A wire that the drawing board offers.</summary>
/// <param name="Words">What it is called.</param>
/// <param name="Conductor">What it is made of.</param>
public sealed record WireChoice(string Words, Conductor Conductor);
