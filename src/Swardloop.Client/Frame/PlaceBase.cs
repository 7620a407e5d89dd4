using Microsoft.AspNetCore.Components;
using Swardloop.Client.Device;
using Swardloop.Client.Wording;

namespace Swardloop.Client.Frame;

/// <summary>What every place and part of one shares: the device, the language, and being drawn again when either changes.</summary>
public abstract class PlaceBase : ComponentBase, IDisposable
{
    private Task? _once;

    [Inject]
    public required ThisDevice Device { get; set; }

    [Inject]
    public required Speech Say { get; set; }

    [CascadingParameter]
    public MainFrame? Frame { get; set; }

    /// <summary>Texts of the pages.</summary>
    protected Texts T => Say.Texts;

    /// <inheritdoc/>
    public void Dispose()
    {
        Dispose(disposing: true);
        GC.SuppressFinalize(this);
    }

    /// <summary>Does something once, however often a key is held or pressed again while it is being done.</summary>
    protected Task Once(Func<Task> doing) => _once is { IsCompleted: false } ? _once : _once = doing();

    protected override void OnInitialized()
    {
        Device.Changed += Renew;
        Say.Changed += Renew;
    }

    /// <summary>Records or language changed.</summary>
    protected virtual void OnNews()
    {
    }

    protected virtual void Dispose(bool disposing)
    {
        Device.Changed -= Renew;
        Say.Changed -= Renew;
    }

    private void Renew() => _ = InvokeAsync(() =>
    {
        OnNews();
        StateHasChanged();
    });
}
