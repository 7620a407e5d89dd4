using System.Runtime.InteropServices.JavaScript;
using System.Runtime.Versioning;

namespace Swardloop.Drawing;

/// <summary>The engine's door in the web worker: <c>engine-worker.js</c> calls it.</summary>
[SupportedOSPlatform("browser")]
internal static partial class EngineWorker
{
    /// <summary>Answers a request.</summary>
    [JSExport]
    internal static byte[] Answer(int task, byte[] request, [JSMarshalAs<JSType.Function<JSType.Number>>] Action<double> progress) =>
        EngineWork.Answer((EngineTask)task, request, new Told(progress));

    private sealed class Told(Action<double> tell) : IProgress<double>
    {
        private double _last;

        public void Report(double value)
        {
            // A hundred messages are enough for anyone.
            if (value - _last >= 0.01 || value >= 1)
            {
                _last = value;
                tell(value);
            }
        }
    }
}
