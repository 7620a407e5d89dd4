using System.Numerics;
using System.Runtime.CompilerServices;

namespace Swardloop.Core.Fields;

/// <summary>As many doubles at once as the runtime offers everywhere: four on most desktops, two in browsers and on phones.</summary>
internal readonly struct PortableLanes(Vector<double> lanes) : ILanes<PortableLanes>
{
    private const MethodImplOptions Inline = MethodImplOptions.AggressiveInlining;

    private readonly Vector<double> _lanes = lanes;

    public static int Count => Vector<double>.Count;

    [MethodImpl(Inline)]
    public static PortableLanes All(double value) => new(new Vector<double>(value));

    [MethodImpl(Inline)]
    public static PortableLanes Load(ReadOnlySpan<double> values) => new(new Vector<double>(values));

    [MethodImpl(Inline)]
    public static PortableLanes SquareRoot(PortableLanes value) => new(Vector.SquareRoot(value._lanes));

    [MethodImpl(Inline)]
    public static PortableLanes Abs(PortableLanes value) => new(Vector.Abs(value._lanes));

    [MethodImpl(Inline)]
    public static PortableLanes WhereNegative(PortableLanes test, PortableLanes then, PortableLanes otherwise) =>
        new(Vector.ConditionalSelect(Vector.LessThan(test._lanes, Vector<double>.Zero), then._lanes, otherwise._lanes));

    [MethodImpl(Inline)]
    public static PortableLanes operator +(PortableLanes a, PortableLanes b) => new(a._lanes + b._lanes);

    [MethodImpl(Inline)]
    public static PortableLanes operator -(PortableLanes a, PortableLanes b) => new(a._lanes - b._lanes);

    [MethodImpl(Inline)]
    public static PortableLanes operator *(PortableLanes a, PortableLanes b) => new(a._lanes * b._lanes);

    [MethodImpl(Inline)]
    public static PortableLanes operator /(PortableLanes a, PortableLanes b) => new(a._lanes / b._lanes);

    [MethodImpl(Inline)]
    public void Store(Span<double> values) => _lanes.CopyTo(values);
}
