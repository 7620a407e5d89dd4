namespace Swardloop.Workshop.Api;

/// <summary>Why a call was refused or failed: problem details (RFC 9457), with everything that is wrong with the input.</summary>
/// <param name="Type">What kind of problem: <c>about:blank</c> where the status says it all.</param>
/// <param name="Title">The status in words.</param>
/// <param name="Status">The HTTP status.</param>
/// <param name="Detail">What is wrong, in a sentence.</param>
/// <param name="Problems">Each thing wrong with its place; empty when it is not about the input.</param>
public sealed record ProblemReply(string Type, string Title, int Status, string? Detail, IReadOnlyList<FieldProblem> Problems);
