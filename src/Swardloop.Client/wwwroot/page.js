// What only the browser can do, in as few lines as it takes. Everything that decides anything is in C#.
const stores = ["records", "waiting", "kept"];
let database, channel, events;

const asked = request => new Promise((done, failed) => {
    request.onsuccess = () => done(request.result);
    request.onerror = () => failed(request.error);
});

globalThis.swardloop = {
    // The device's own database; one per workshop, so that demo and real data never meet.
    async open(name, onNews) {
        const request = indexedDB.open(name, 1);
        request.onupgradeneeded = () => stores.forEach(store => request.result.createObjectStore(store));
        database = await asked(request);
        database.onversionchange = () => database.close();
        channel = new BroadcastChannel(name);
        channel.onmessage = message => onNews(message.data);
        navigator.storage?.persist?.();
    },
    async load(store) {
        const rows = await asked(database.transaction(store).objectStore(store).getAll());
        return "[" + rows.join(",") + "]";
    },
    async kept(name) {
        return await asked(database.transaction("kept").objectStore("kept").get(name)) ?? null;
    },
    // One transaction; done only when the browser says that it is on the disk.
    write(recordIds, records, waitingIds, waiting, gone, keptNames, kept, news) {
        return new Promise((done, failed) => {
            const all = database.transaction(stores, "readwrite", { durability: "strict" });
            all.oncomplete = () => { if (news) channel.postMessage(news); done(); };
            all.onabort = all.onerror = () => failed(all.error ?? new Error("The browser gave up writing."));
            recordIds.forEach((id, i) => all.objectStore("records").put(records[i], id));
            waitingIds.forEach((id, i) => all.objectStore("waiting").put(waiting[i], id));
            gone.forEach(id => all.objectStore("waiting").delete(id));
            keptNames.forEach((name, i) => all.objectStore("kept").put(kept[i], name));
        });
    },
    // Of all tabs, one talks to the server; when it goes, the next takes over.
    lead(name, onLead) {
        navigator.locks.request(name, () => { onLead(); return new Promise(() => { }); });
    },
    listen(url, onEvent, onState) {
        events?.close();
        events = new EventSource(url);
        events.addEventListener("change", event => onEvent(event.data));
        events.onopen = () => onState(true);
        events.onerror = () => onState(false);
    },
    stopListening() { events?.close(); events = null; },
    async room() {
        const { usage = -1, quota = -1 } = await navigator.storage?.estimate?.() ?? {};
        const lasting = await navigator.storage?.persisted?.() ?? false;
        return `${usage} ${quota} ${lasting}`;
    },
    remember(name, value) { value === null ? localStorage.removeItem(name) : localStorage.setItem(name, value); },
    remembered: name => localStorage.getItem(name),
    language: () => navigator.language,
    appearance(value) { value ? document.documentElement.dataset.appearance = value : delete document.documentElement.dataset.appearance; },
    speak(language) { document.documentElement.lang = language; },
    reload: () => location.reload(),
    saveFile(name, type, text) {
        const link = document.createElement("a");
        link.href = URL.createObjectURL(new Blob([text], { type }));
        link.download = name;
        link.click();
        setTimeout(() => URL.revokeObjectURL(link.href), 60000);
    },
    showDialog(dialog) { if (!dialog.open) dialog.showModal(); },
    closeDialog(dialog) { dialog.close(); },
    focus(id) { document.getElementById(id)?.focus(); },
    // Keys that work anywhere on the page, unless somebody is typing.
    onKeys(onKey) {
        document.addEventListener("keydown", event => {
            // A ticked box takes no letters; the keys go on working while it has the focus.
            const typing = event.target.closest?.("input:not([type=checkbox], [type=radio], [type=range]), textarea, select, [contenteditable]") || document.querySelector("dialog[open]");
            if (typing || event.ctrlKey || event.metaKey || event.altKey || event.key.length !== 1) return;
            if (onKey(event.key)) event.preventDefault();
        });
    },
    // Tells when another build lies ready beside the running one; it takes over when the person says so, in all pages at once.
    async onBuild(onReady) {
        if (!navigator.serviceWorker) return;
        const registration = await navigator.serviceWorker.register("service-worker.js", { updateViaCache: "none" });
        const look = () => registration.waiting && navigator.serviceWorker.controller && onReady();
        registration.addEventListener("updatefound", () => registration.installing?.addEventListener("statechange", look));
        look();
        setInterval(() => registration.update().catch(() => { }), 3600000);
    },
    async takeOver() {
        const registration = await navigator.serviceWorker.getRegistration();
        navigator.serviceWorker.addEventListener("controllerchange", () => location.reload());
        registration?.waiting ? registration.waiting.postMessage("take over") : location.reload();
    },
    onConnection(onChange) {
        addEventListener("online", () => onChange());
        document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && onChange());
    },
};
