using System.Runtime.CompilerServices;

namespace Swardloop.Core.Fields;

/// <summary>One double at a time: for single places, and for little work before the wider lanes are compiled.</summary>
internal readonly struct OneLane(double lane) : ILanes<OneLane>
{
    private const MethodImplOptions Inline = MethodImplOptions.AggressiveInlining;

    private readonly double _lane = lane;

    public static int Count => 1;

    [MethodImpl(Inline)]
    public static OneLane All(double value) => new(value);

    [MethodImpl(Inline)]
    public static OneLane Load(ReadOnlySpan<double> values) => new(values[0]);

    [MethodImpl(Inline)]
    public static OneLane SquareRoot(OneLane value) => new(Math.Sqrt(value._lane));

    [MethodImpl(Inline)]
    public static OneLane Abs(OneLane value) => new(Math.Abs(value._lane));

    [MethodImpl(Inline)]
    public static OneLane WhereNegative(OneLane test, OneLane then, OneLane otherwise) => test._lane < 0 ? then : otherwise;

    [MethodImpl(Inline)]
    public static OneLane operator +(OneLane a, OneLane b) => new(a._lane + b._lane);

    [MethodImpl(Inline)]
    public static OneLane operator -(OneLane a, OneLane b) => new(a._lane - b._lane);

    [MethodImpl(Inline)]
    public static OneLane operator *(OneLane a, OneLane b) => new(a._lane * b._lane);

    [MethodImpl(Inline)]
    public static OneLane operator /(OneLane a, OneLane b) => new(a._lane / b._lane);

    [MethodImpl(Inline)]
    public void Store(Span<double> values) => values[0] = _lane;
}
