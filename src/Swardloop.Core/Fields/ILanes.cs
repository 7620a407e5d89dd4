namespace Swardloop.Core.Fields;

/// <summary>A handful of doubles worked on at once. Every operation is IEEE 754's own, correctly rounded in each lane, so any width gives the same bits.</summary>
/// <remarks>There is deliberately no fused multiply-add: not every machine has it (browsers do not), and its single rounding would make answers differ.</remarks>
internal interface ILanes<T>
    where T : struct, ILanes<T>
{
    static abstract int Count { get; }

    static abstract T All(double value);

    static abstract T Load(ReadOnlySpan<double> values);

    static abstract T SquareRoot(T value);

    static abstract T Abs(T value);

    /// <summary>Lane by lane: where the test is below zero the first, elsewhere the second.</summary>
    static abstract T WhereNegative(T test, T then, T otherwise);

    static abstract T operator +(T a, T b);

    static abstract T operator -(T a, T b);

    static abstract T operator *(T a, T b);

    static abstract T operator /(T a, T b);

    void Store(Span<double> values);
}
