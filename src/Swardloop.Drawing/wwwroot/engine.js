// The page's side of the engine: starts the worker, hands it one request at a time, ends it when told.

export function open(target) {
    let worker = null, starting = null, waiting = null, refuse = null;

    function start() {
        return new Promise((settle, refused) => {
            refuse = refused;
            if (typeof Worker !== "function") { settle(false); return; }
            try {
                worker = new Worker(new URL("./engine-worker.js", import.meta.url), { type: "module" });
            } catch {
                settle(false);
                return;
            }
            const mine = worker;
            mine.onerror = event => {
                event.preventDefault?.();
                settle(false);
                if (mine === worker) { fail(event.message || "the worker failed"); }
            };
            mine.onmessage = ({ data }) => {
                if (mine !== worker) { return; }
                if (data.ready !== undefined) {
                    settle(data.ready);
                } else if (data.share !== undefined) {
                    target.invokeMethodAsync("OnProgress", data.share);
                } else if (data.answer) {
                    const { resolve } = waiting;
                    waiting = null;
                    resolve(data.answer);
                } else {
                    fail(data.fault);
                }
            };
        });
    }

    function fail(reason) {
        const lost = waiting;
        waiting = null;
        lost?.reject(new Error(reason));
    }

    return {
        async ready() { return await (starting ??= start()); },
        ask(task, request) {
            return new Promise((resolve, reject) => {
                waiting = { resolve, reject };
                worker.postMessage({ task, request });
            });
        },
        stop() {
            worker?.terminate();
            worker = null;
            starting = null;
            refuse?.(new Error("the worker was ended while it started")); // says nothing to one that has started
            fail("the worker was ended");
        },
    };
}
