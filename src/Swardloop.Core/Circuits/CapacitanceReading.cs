namespace Swardloop.Core.Circuits;

/// <summary>What a capacitance meter between one wire end and a stake meets.</summary>
/// <param name="Farad">Capacitance to earth (F): the imaginary part of the admittance over 2πf.</param>
/// <param name="LeakSiemens">Its real part (S): what leaks beside it, through wet broken ends above all. A plain meter reads less surely as
/// this nears 2πf × <paramref name="Farad"/>.</param>
public readonly record struct CapacitanceReading(double Farad, double LeakSiemens);
