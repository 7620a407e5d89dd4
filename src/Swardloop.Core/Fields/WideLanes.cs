using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace Swardloop.Core.Fields;

/// <summary>Eight doubles at once, where the processor has such registers.</summary>
internal readonly struct WideLanes(Vector512<double> lanes) : ILanes<WideLanes>
{
    private const MethodImplOptions Inline = MethodImplOptions.AggressiveInlining;

    private readonly Vector512<double> _lanes = lanes;

    public static int Count => Vector512<double>.Count;

    [MethodImpl(Inline)]
    public static WideLanes All(double value) => new(Vector512.Create(value));

    [MethodImpl(Inline)]
    public static WideLanes Load(ReadOnlySpan<double> values) => new(Vector512.Create(values));

    [MethodImpl(Inline)]
    public static WideLanes SquareRoot(WideLanes value) => new(Vector512.Sqrt(value._lanes));

    [MethodImpl(Inline)]
    public static WideLanes Abs(WideLanes value) => new(Vector512.Abs(value._lanes));

    [MethodImpl(Inline)]
    public static WideLanes WhereNegative(WideLanes test, WideLanes then, WideLanes otherwise) =>
        new(Vector512.ConditionalSelect(Vector512.LessThan(test._lanes, Vector512<double>.Zero), then._lanes, otherwise._lanes));

    [MethodImpl(Inline)]
    public static WideLanes operator +(WideLanes a, WideLanes b) => new(a._lanes + b._lanes);

    [MethodImpl(Inline)]
    public static WideLanes operator -(WideLanes a, WideLanes b) => new(a._lanes - b._lanes);

    [MethodImpl(Inline)]
    public static WideLanes operator *(WideLanes a, WideLanes b) => new(a._lanes * b._lanes);

    [MethodImpl(Inline)]
    public static WideLanes operator /(WideLanes a, WideLanes b) => new(a._lanes / b._lanes);

    [MethodImpl(Inline)]
    public void Store(Span<double> values) => _lanes.CopyTo(values);
}
