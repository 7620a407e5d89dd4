// A second runtime, with the same assemblies as the page, that computes and nothing else.
import { dotnet } from "../../_framework/dotnet.js";

let engine = null;

self.onmessage = ({ data: { task, request } }) => {
    try {
        const answer = engine.Answer(task, request, share => { postMessage({ share }); });
        const bytes = new Uint8Array(answer);
        postMessage({ answer: bytes }, [bytes.buffer]);
    } catch (fault) {
        postMessage({ fault: String(fault?.message ?? fault) });
    }
};

try {
    const { getAssemblyExports } = await dotnet.create();
    engine = (await getAssemblyExports("Swardloop.Drawing.dll")).Swardloop.Drawing.EngineWorker;
    postMessage({ ready: true });
} catch (fault) {
    console.warn("The engine computes on the page: its worker did not start.", fault);
    postMessage({ ready: false });
}
