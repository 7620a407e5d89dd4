// A picture's surface: tells its size, its pointers (one message a frame), its wheel. Everything else is decided in C#.

const keysToKeep = new Set(["ArrowLeft", "ArrowRight", "ArrowUp", "ArrowDown", "PageUp", "PageDown", "Home", "End", " ", "+", "-", "=", "0"]);

export function attach(element, target, takesWheel) {
    const stop = new AbortController();
    const options = { signal: stop.signal };
    const waiting = new Map(); // pointer id -> its newest move
    let wheel = null, frame = 0;

    const at = event => {
        const box = element.getBoundingClientRect();
        return [event.clientX - box.left, event.clientY - box.top];
    };
    const call = (name, ...values) => { if (!stop.signal.aborted) { target.invokeMethodAsync(name, ...values); } };
    const tell = (stage, event) => {
        const [x, y] = at(event);
        call("OnPointer", stage, event.pointerId, x, y, event.pointerType !== "mouse", event.shiftKey);
    };
    const flush = () => {
        if (frame) { cancelAnimationFrame(frame); }
        frame = 0;
        for (const event of waiting.values()) { tell(1, event); }
        waiting.clear();
        if (wheel) {
            const { factor, x, y } = wheel;
            wheel = null;
            call("OnWheel", factor, x, y);
        }
    };
    const later = () => { frame ||= requestAnimationFrame(() => { frame = 0; flush(); }); };

    element.addEventListener("pointerdown", event => {
        if (event.button !== 0) { return; }
        flush();
        element.setPointerCapture(event.pointerId);
        tell(0, event);
    }, options);
    element.addEventListener("pointermove", event => { waiting.set(event.pointerId, event); later(); }, options);
    for (const [name, stage] of [["pointerup", 2], ["pointercancel", 3], ["pointerleave", 4]]) {
        element.addEventListener(name, event => { flush(); tell(stage, event); }, options);
    }
    if (takesWheel) { element.addEventListener("wheel", onWheel, { ...options, passive: false }); }
    function onWheel(event) {
        event.preventDefault();
        const [x, y] = at(event);
        const lines = event.deltaMode === 1 ? 30 : event.deltaMode === 2 ? 400 : 1;
        const factor = Math.exp(-Math.max(-300, Math.min(300, event.deltaY * lines)) * (event.ctrlKey ? 0.01 : 0.002));
        wheel = { factor: (wheel?.factor ?? 1) * factor, x, y };
        later();
    }
    // Keys that move the picture must not move the page as well.
    element.addEventListener("keydown", event => {
        if (event.target === element && keysToKeep.has(event.key) && !event.ctrlKey && !event.metaKey && !event.altKey) { event.preventDefault(); }
        if (event.target === element && (event.ctrlKey || event.metaKey) && (event.key === "z" || event.key === "y")) { event.preventDefault(); }
    }, options);

    const sizes = new ResizeObserver(() => call("OnSize", element.clientWidth, element.clientHeight));
    sizes.observe(element);
    return {
        detach() {
            stop.abort();
            sizes.disconnect();
            if (frame) { cancelAnimationFrame(frame); }
        },
    };
}
