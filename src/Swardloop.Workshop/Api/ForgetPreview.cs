using Swardloop.Workshop.Records;

namespace Swardloop.Workshop.Api;

/// <summary>What would be erased for an owner who is to be forgotten, to be looked through before it is.</summary>
/// <param name="Texts">Every text that would go, as it stands or once stood.</param>
/// <param name="Photos">How many photos would go.</param>
/// <param name="Links">How many owner's links would be closed.</param>
public sealed record ForgetPreview(IReadOnlyList<ForgetText> Texts, int Photos, int Links);

/// <summary>One text that would go.</summary>
/// <param name="Key">Names it in <see cref="ForgetRequest.Keep"/>: the record, a slash, the field.</param>
/// <param name="Kind">Kind of its record.</param>
/// <param name="Field">The field.</param>
/// <param name="Path">Where in the field's value; empty for the whole.</param>
/// <param name="Text">The text.</param>
/// <param name="MayStay">Whether it may be kept: what a person wrote may be about the lawn alone. Name, telephone, e-mail, address and position go.</param>
/// <param name="IsElsewhere">Whether it stands in a record of somebody else's yard, found by the person's name.</param>
public sealed record ForgetText(string Key, RecordKind Kind, string Field, string Path, string Text, bool MayStay, bool IsElsewhere);

/// <summary>Forgets an owner.</summary>
/// <param name="Keep">Keys of texts that were looked at and name nobody.</param>
public sealed record ForgetRequest(IReadOnlyList<string> Keep);

/// <summary>What went when an owner was forgotten, and what still holds it.</summary>
/// <param name="Records">Records that lost something.</param>
/// <param name="Texts">Texts emptied, in records and their history.</param>
/// <param name="Photos">Photos deleted.</param>
/// <param name="Links">Owner's links closed.</param>
/// <param name="Kept">Texts left because somebody looked at them.</param>
/// <param name="At">When: every backup made before holds all of it still.</param>
/// <param name="Files">Files beside the database that may hold it; the database itself was written anew.</param>
public sealed record ForgetReport(int Records, int Texts, int Photos, int Links, int Kept, DateTimeOffset At, IReadOnlyList<string> Files);
