namespace Swardloop.Workshop.Records;

/// <summary>What a case file would bring into the workshop.</summary>
/// <param name="Case">Its case.</param>
/// <param name="YardName">Name of its yard.</param>
/// <param name="Observations">How many observations the file holds.</param>
/// <param name="Changes">What is new; none when everything is known already.</param>
/// <param name="Differing">Fields of the known yard, case or observations of which the file says something else than the workshop. What the
/// workshop has stays; to be told to a person.</param>
public sealed record CaseFileNews(
    Guid Case, string YardName, int Observations, IReadOnlyList<Change> Changes, IReadOnlyList<(RecordKind Kind, string Field)> Differing);
