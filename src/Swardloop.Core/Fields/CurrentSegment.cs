using System.Numerics;
using Swardloop.Core.Geometry;

namespace Swardloop.Core.Fields;

/// <summary>A straight, thin piece of conductor and the steady or sinusoidal current in it.</summary>
/// <param name="StartMetres">Where the current enters (m): east, north, up; up is negative below the ground.</param>
/// <param name="EndMetres">Where it leaves (m).</param>
/// <param name="CurrentAmperes">Current from start to end (A): a phasor against whatever reference all pieces share; real at DC.</param>
public readonly record struct CurrentSegment(Vec3 StartMetres, Vec3 EndMetres, Complex CurrentAmperes);
