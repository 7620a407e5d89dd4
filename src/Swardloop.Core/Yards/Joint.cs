namespace Swardloop.Core.Yards;

/// <summary>A splice in the wire.</summary>
/// <param name="AtMetres">Metres along the wire from terminal A.</param>
/// <param name="Style">How it was made.</param>
public sealed record Joint(double AtMetres, JointStyle Style = JointStyle.Unknown);
