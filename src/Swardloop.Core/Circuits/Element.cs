using System.Numerics;

namespace Swardloop.Core.Circuits;

/// <summary>A two-terminal part of a network. Positive current enters at <see cref="From"/> and leaves at <see cref="To"/>;
/// its voltage is V(From) − V(To). Values are checked by <see cref="Network.Violations"/>, not here.</summary>
/// <param name="Name">Its name, unique in the network.</param>
/// <param name="From">Node where positive current enters.</param>
/// <param name="To">Node where it leaves.</param>
public abstract record Element(string Name, string From, string To)
{
    /// <summary>A resistance.</summary>
    /// <param name="Name">Its name.</param>
    /// <param name="From">Node where positive current enters.</param>
    /// <param name="To">Node where it leaves.</param>
    /// <param name="Ohms">Resistance (Ω), above 0.</param>
    public sealed record Resistor(string Name, string From, string To, double Ohms) : Element(Name, From, To);

    /// <summary>A complex impedance, the same at every frequency it is asked for.</summary>
    /// <param name="Name">Its name.</param>
    /// <param name="From">Node where positive current enters.</param>
    /// <param name="To">Node where it leaves.</param>
    /// <param name="Ohms">Impedance (Ω): not 0, real part 0 or more; real when solved at DC.</param>
    public sealed record Impedance(string Name, string From, string To, Complex Ohms) : Element(Name, From, To);

    /// <summary>A capacitance; open at DC.</summary>
    /// <param name="Name">Its name.</param>
    /// <param name="From">Node where positive current enters.</param>
    /// <param name="To">Node where it leaves.</param>
    /// <param name="Farad">Capacitance (F), above 0.</param>
    public sealed record Capacitor(string Name, string From, string To, double Farad) : Element(Name, From, To);

    /// <summary>An inductance; a short at DC.</summary>
    /// <param name="Name">Its name.</param>
    /// <param name="From">Node where positive current enters.</param>
    /// <param name="To">Node where it leaves.</param>
    /// <param name="Henry">Inductance (H), above 0.</param>
    public sealed record Inductor(string Name, string From, string To, double Henry) : Element(Name, From, To);

    /// <summary>A voltage source behind an impedance: V(From) − V(To) = Volts + Ohms × current. A source that delivers has negative current.</summary>
    /// <param name="Name">Its name.</param>
    /// <param name="From">Its plus terminal.</param>
    /// <param name="To">Its minus terminal.</param>
    /// <param name="Volts">Open-circuit voltage (V), real when solved at DC.</param>
    /// <param name="Ohms">Series impedance (Ω), real part 0 or more; 0 makes it ideal.</param>
    public sealed record VoltageSource(string Name, string From, string To, Complex Volts, Complex Ohms) : Element(Name, From, To);

    /// <summary>An ideal current source, driving its current from <see cref="Element.From"/> through itself to <see cref="Element.To"/>.</summary>
    /// <param name="Name">Its name.</param>
    /// <param name="From">Node the current is taken from.</param>
    /// <param name="To">Node it is pushed into.</param>
    /// <param name="Amperes">Current (A), real when solved at DC.</param>
    public sealed record CurrentSource(string Name, string From, string To, Complex Amperes) : Element(Name, From, To);

    /// <summary>A voltmeter with its input resistance.</summary>
    /// <param name="Name">Its name.</param>
    /// <param name="From">Red lead.</param>
    /// <param name="To">Black lead.</param>
    /// <param name="InputOhms">Input resistance (Ω), above 0.</param>
    public sealed record Voltmeter(string Name, string From, string To, double InputOhms) : Element(Name, From, To);

    /// <summary>An ammeter with the resistance it adds.</summary>
    /// <param name="Name">Its name.</param>
    /// <param name="From">Where current goes in.</param>
    /// <param name="To">Where it comes out.</param>
    /// <param name="BurdenOhms">Resistance it adds (Ω), 0 or more; 0 makes it ideal.</param>
    public sealed record Ammeter(string Name, string From, string To, double BurdenOhms) : Element(Name, From, To);
}
