using System.Numerics;

namespace Swardloop.Core.Circuits;

/// <summary>Current in a stretch of the wire.</summary>
/// <param name="FromMetres">Start (m from A).</param>
/// <param name="ToMetres">End.</param>
/// <param name="Amperes">Mean current towards B (A).</param>
public readonly record struct WireCurrent(double FromMetres, double ToMetres, Complex Amperes);
