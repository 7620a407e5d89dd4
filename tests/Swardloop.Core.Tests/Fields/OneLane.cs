using Swardloop.Core.Fields;

namespace Swardloop.Core.Tests.Fields;

/// <summary>The kernel's arithmetic one number at a time: what every vector width must equal to the last bit.</summary>
internal readonly struct OneLane(double value) : ILanes<OneLane>
{
    private readonly double _value = value;

    public static int Count => 1;

    public static OneLane All(double value) => new(value);

    public static OneLane Load(ReadOnlySpan<double> values) => new(values[0]);

    public static OneLane SquareRoot(OneLane value) => new(Math.Sqrt(value._value));

    public static OneLane Abs(OneLane value) => new(Math.Abs(value._value));

    public static OneLane WhereNegative(OneLane test, OneLane then, OneLane otherwise) => test._value < 0 ? then : otherwise;

    public static OneLane operator +(OneLane a, OneLane b) => new(a._value + b._value);

    public static OneLane operator -(OneLane a, OneLane b) => new(a._value - b._value);

    public static OneLane operator *(OneLane a, OneLane b) => new(a._value * b._value);

    public static OneLane operator /(OneLane a, OneLane b) => new(a._value / b._value);

    public void Store(Span<double> values) => values[0] = _value;
}
