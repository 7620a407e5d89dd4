using System.Numerics;

namespace Swardloop.Core.Circuits;

/// <summary>What solving a network gave: an answer, or the reason there is none. Never a number in place of an answer.</summary>
public abstract record NetworkResult
{
    private NetworkResult()
    {
    }

    /// <summary>The answer, or an exception for callers to whom a singular network is a mistake of their own.</summary>
    /// <exception cref="InvalidOperationException">The network broke a rule or has no single answer.</exception>
    public Solved OrThrow() => this switch
    {
        Solved solved => solved,
        Singular singular => throw new InvalidOperationException($"No answer at node '{singular.Node}': {singular.Detail}"),
        Refused refused => throw new InvalidOperationException(string.Join(" ", refused.Violations.Select(v => v.Message))),
        _ => throw new InvalidOperationException("Unknown result."),
    };

    /// <summary>Voltages, currents and powers. At DC every imaginary part is exactly 0.</summary>
    public sealed record Solved : NetworkResult
    {
        private readonly Dictionary<string, Complex> _volts;
        private readonly Dictionary<string, Complex> _amperes;

        internal Solved(Dictionary<string, Complex> volts, Dictionary<string, Complex> amperes, PowerBalance power) =>
            (_volts, _amperes, Power) = (volts, amperes, power);

        /// <summary>Every node's voltage against the reference (V), the reference's own 0 included.</summary>
        public IReadOnlyDictionary<string, Complex> NodeVolts => _volts;

        /// <summary>Every element's current, from its <see cref="Element.From"/> to its <see cref="Element.To"/> (A).</summary>
        public IReadOnlyDictionary<string, Complex> ElementAmperes => _amperes;

        /// <summary>Power delivered and taken.</summary>
        public PowerBalance Power { get; }

        /// <summary>A node's voltage against the reference (V).</summary>
        /// <exception cref="ArgumentException">No such node.</exception>
        public Complex Volts(string node) =>
            _volts.TryGetValue(node, out Complex volts) ? volts : throw new ArgumentException($"No node '{node}'.", nameof(node));

        /// <summary>Voltage of one node against another (V).</summary>
        /// <exception cref="ArgumentException">No such node.</exception>
        public Complex Volts(string node, string against) => Volts(node) - Volts(against);

        /// <summary>An element's current, from its <see cref="Element.From"/> to its <see cref="Element.To"/> (A).</summary>
        /// <exception cref="ArgumentException">No such element.</exception>
        public Complex Amperes(string element) =>
            _amperes.TryGetValue(element, out Complex amperes) ? amperes : throw new ArgumentException($"No element '{element}'.", nameof(element));
    }

    /// <summary>No single answer.</summary>
    /// <param name="Node">A node at which it shows.</param>
    /// <param name="Reason">Why.</param>
    /// <param name="Detail">The same in words.</param>
    public sealed record Singular(string Node, SingularReason Reason, string Detail) : NetworkResult;

    /// <summary>Not solved: it breaks rules.</summary>
    /// <param name="Violations">Every rule broken.</param>
    public sealed record Refused(IReadOnlyList<CircuitViolation> Violations) : NetworkResult;
}
