using Swardloop.Workshop.Records;

namespace Swardloop.Workshop.Api;

/// <summary>Records that changed, in the order of their last changes.</summary>
/// <param name="Records">The records.</param>
/// <param name="Next">Ask from here for what follows.</param>
/// <param name="Complete">Whether there was nothing more at the time.</param>
public sealed record RecordPage(IReadOnlyList<RecordState> Records, long Next, bool Complete);
