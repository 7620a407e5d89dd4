namespace Swardloop.Trial;

/// <summary>A step was asked for that nobody could do in this yard.</summary>
public sealed class TrialRefusalException(string message) : Exception(message);
