namespace Swardloop.Server.Serving;

/// <summary>Which workshop this server serves.</summary>
/// <param name="Workshop">Identity of its data.</param>
/// <param name="IsDemo">Whether it is the demo workshop.</param>
internal sealed record ServedWorkshop(Guid Workshop, bool IsDemo)
{
    /// <summary>The server's build: the module's own id, another one with every build of other sources.</summary>
    public string Build { get; } = typeof(ServedWorkshop).Module.ModuleVersionId.ToString("N")[..12];
}
