namespace Swardloop.Workshop.Api;

/// <summary>One thing wrong in what was handed in.</summary>
/// <param name="Place">Where in it.</param>
/// <param name="Message">What is wrong.</param>
/// <param name="Allowed">What is allowed; empty when the message says it all.</param>
public sealed record FieldProblem(string Place, string Message, string Allowed);
