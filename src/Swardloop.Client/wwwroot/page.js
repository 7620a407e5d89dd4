// What only the browser can do, in as few lines as it takes. Everything that decides anything is in C#.
// What each version of the device's database added. Rows are JSON texts that every later build still reads, so a new version adds stores and
// carries all rows along; an old row is never rewritten or dropped.
const versions = [
    made => ["records", "waiting", "kept"].forEach(store => made.createObjectStore(store)),
    made => made.createObjectStore("drafts"),
    made => ["sending", "photos"].forEach(store => made.createObjectStore(store)), // photos that wait; bytes of photos
];
const stores = ["records", "waiting", "kept", "sending", "photos"];
const held = new Map(); // bytes of photos on their way into the store
const underWay = new Set();
let database, databaseName, channel, events, asksBeforeLeaving = false;

// Whoever goes on typing while a dialog closes means the dialog, not the keys of the page: those wait for a pause.
let keysWait = 0;
function waitWithKeys() {
    clearTimeout(keysWait);
    document.documentElement.dataset.keys = "wait";
    keysWait = setTimeout(() => { keysWait = 0; delete document.documentElement.dataset.keys; }, 700);
}

const asked = request => new Promise((done, failed) => {
    request.onsuccess = () => done(request.result);
    request.onerror = () => failed(request.error);
});

// The database; opened again when a page of a newer build asked for it, or the browser closed it.
async function store() {
    if (database) return database;
    const request = indexedDB.open(databaseName, versions.length);
    request.onupgradeneeded = event => versions.slice(event.oldVersion).forEach(add => add(request.result));
    const opened = await asked(request).catch(fault => {
        if (fault.name !== "VersionError") throw fault;
        return asked(indexedDB.open(databaseName)); // a newer build has been here; it keeps all stores that we know
    });
    const gone = () => { if (database === opened) database = null; };
    opened.onversionchange = () => { opened.close(); gone(); };
    opened.onclose = gone;
    return database = opened;
}

// What is typed belongs to the tab in which it is typed: two tabs never replace each other's. A tab keeps its name when it is loaded again;
// what a tab left behind that is gone, closed or killed, goes over to the next one that asks for the same form.
let tab = "";
const tabLock = name => `tab:${name}`;
let letGo = () => { };
async function nameTab() {
    // A copy of a tab has the name of one that goes on, and waits in vain. A page that goes lets go at once, also where the browser keeps it for the way back.
    const hold = name => new Promise(done => navigator.locks.request(
        tabLock(name), { signal: AbortSignal.timeout(3000) }, () => { done(true); return new Promise(gone => { letGo = gone; }); }).catch(() => done(false)));
    addEventListener("pagehide", () => letGo());
    addEventListener("pageshow", event => event.persisted && hold(tab));
    const before = sessionStorage.getItem("tab");
    if (before && await hold(before)) { tab = before; return; }
    tab = crypto.randomUUID();
    await hold(tab);
    sessionStorage.setItem("tab", tab);
}
const draftKey = (form, of = tab) => `${form}\n${of}`;

// What was typed last stands here at once, for a page that goes away before the store has written it: that takes some milliseconds a key.
const justNow = key => `typing:${databaseName}:${key}`;
function typedJustNow(key) {
    try {
        const note = localStorage.getItem(justNow(key));
        return note === null ? undefined : JSON.parse(note);
    } catch { return undefined; }
}
const forgetJustNow = (key, note) => { if (localStorage.getItem(justNow(key)) === note) localStorage.removeItem(justNow(key)); };

// Keys under which tabs keep what was typed into a form, in the store or only just now.
async function draftKeys(form) {
    const drafts = (await store()).transaction("drafts").objectStore("drafts");
    const kept = await asked(drafts.getAllKeys(IDBKeyRange.bound(form, draftKey(form, "\uffff")))); // a build before kept them under the form alone
    const noted = Object.keys(localStorage).filter(name => name.startsWith(justNow(draftKey(form, "")))).map(name => name.slice(justNow("").length));
    return [...new Set([...kept, ...noted])];
}
async function draftUnder(key) {
    const typed = typedJustNow(key);
    return typed !== undefined ? typed : await asked((await store()).transaction("drafts").objectStore("drafts").get(key)) ?? null;
}

// One transaction; done only when the browser says that it is on the disk.
async function transact(names, doing) {
    const open = await store();
    return await new Promise((done, failed) => {
        const all = open.transaction(names, "readwrite", { durability: "strict" });
        all.oncomplete = () => done();
        all.onabort = () => failed(new Error(all.error ? `${all.error.name}: ${all.error.message}` : "The browser gave up writing."));
        doing(all);
    });
}

globalThis.swardloop = {
    // The device's own database; one per workshop, so that demo and real data never meet.
    async open(name, onNews) {
        databaseName = name;
        channel = new BroadcastChannel(name);
        channel.onmessage = message => onNews(message.data);
        navigator.storage?.persist?.();
        await nameTab();
        await store();
    },
    async load(part) {
        const rows = await asked((await store()).transaction(part).objectStore(part).getAll());
        return "[" + rows.join(",") + "]";
    },
    async kept(name) {
        return await asked((await store()).transaction("kept").objectStore("kept").get(name)) ?? null;
    },
    write(recordIds, records, waitingIds, waiting, gone, keptNames, kept, sendingIds, sending, sent, photosGone, news) {
        const written = transact(stores, all => {
            recordIds.forEach((id, i) => all.objectStore("records").put(records[i], id));
            waitingIds.forEach((id, i) => all.objectStore("waiting").put(waiting[i], id));
            gone.forEach(id => all.objectStore("waiting").delete(id));
            keptNames.forEach((name, i) => all.objectStore("kept").put(kept[i], name));
            sendingIds.forEach((id, i) => all.objectStore("sending").put(sending[i], id));
            sent.forEach(id => all.objectStore("sending").delete(id));
            photosGone.forEach(key => all.objectStore("photos").delete(key));
            [...held].filter(([key]) => sendingIds.some(id => key.startsWith(id))).forEach(([key, bytes]) => { all.objectStore("photos").put(bytes, key); held.delete(key); });
        }).then(() => { if (news) channel.postMessage(news); });
        underWay.add(written);
        written.catch(() => { }).finally(() => underWay.delete(written));
        return written;
    },
    async draft(form) {
        try {
            const keys = await draftKeys(form), own = draftKey(form);
            if (keys.includes(own)) return await draftUnder(own);
            const living = keys.length > 0 ? new Set((await navigator.locks.query()).held.map(lock => lock.name)) : null;
            for (const left of keys.filter(key => !living.has(tabLock(key.slice(form.length + 1))))) {
                const text = await draftUnder(left);
                if (text === null) continue;
                await globalThis.swardloop.keepDraft(form, text);
                await transact(["drafts"], all => all.objectStore("drafts").delete(left));
                localStorage.removeItem(justNow(left));
                return text;
            }
        } catch { /* nothing to be read is nothing kept */ }
        return null;
    },
    async keepDraft(form, text) {
        const key = draftKey(form), note = JSON.stringify(text);
        try { localStorage.setItem(justNow(key), note); } catch { /* no room: the store below may have some */ }
        await transact(["drafts"], all => text === null ? all.objectStore("drafts").delete(key) : all.objectStore("drafts").put(text, key)).then(
            () => forgetJustNow(key, note),
            () => { });
    },
    askBeforeLeaving(ask) { asksBeforeLeaving = ask; },
    tell(news) { channel.postMessage(news); },
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
        const { usage = -1, quota = -1 } = await navigator.storage?.estimate?.().catch(() => null) ?? {};
        const lasting = await navigator.storage?.persisted?.().catch(() => false) ?? false;
        return `${usage} ${quota} ${lasting}`;
    },
    remember(name, value) { value === null ? localStorage.removeItem(name) : localStorage.setItem(name, value); },
    remembered: name => localStorage.getItem(name),
    language: () => navigator.language,
    appearance(value) { value ? document.documentElement.dataset.appearance = value : delete document.documentElement.dataset.appearance; },
    speak(language) { document.documentElement.lang = language; },
    reload: () => location.reload(),
    saveFile(name, type, content) {
        const link = document.createElement("a");
        link.href = URL.createObjectURL(new Blob([content], { type }));
        link.download = name;
        link.click();
        setTimeout(() => URL.revokeObjectURL(link.href), 60000);
    },
    // Passkeys belong to a name, never to a bare address.
    hasPasskeys: () => isSecureContext && !!globalThis.PublicKeyCredential?.parseCreationOptionsFromJSON && !/^[\d.]+$|:/.test(location.hostname),
    async makePasskey(options) {
        return JSON.stringify(await navigator.credentials.create({ publicKey: PublicKeyCredential.parseCreationOptionsFromJSON(JSON.parse(options)) }));
    },
    async askPasskey(options) {
        return JSON.stringify(await navigator.credentials.get({ publicKey: PublicKeyCredential.parseRequestOptionsFromJSON(JSON.parse(options)) }));
    },
    showDialog(dialog) { if (!dialog.open) dialog.showModal(); },
    closeDialog(dialog) { dialog.close(); waitWithKeys(); },
    // The whole content is in view already; scrolled to its beginning it would only lose what stands above it.
    focus(id) {
        const part = document.getElementById(id);
        part?.focus({ preventScroll: part.tagName === "MAIN" });
    },
    // Keys that work anywhere on the page, unless somebody is typing.
    onKeys(onKey) {
        document.addEventListener("keydown", event => {
            // A ticked box takes no letters; the keys go on working while it has the focus.
            // A field of a dialog that was just closed keeps the focus until the page is drawn again.
            const field = event.target.closest?.("input:not([type=checkbox], [type=radio], [type=range]), textarea, select, [contenteditable]");
            const typing = (field && !field.closest("dialog:not([open])")) || document.querySelector("dialog[open]");
            if (keysWait && !typing && event.key.length === 1) { waitWithKeys(); return; }
            if (typing || event.ctrlKey || event.metaKey || event.altKey || event.key.length !== 1) return;
            if (onKey(event.key)) event.preventDefault();
        });
    },
    // Tells when another build lies ready beside the running one; it takes over when the person says so, in all pages at once: each loads
    // again, or its own program would be given files of the other build.
    async onBuild(onReady) {
        if (!navigator.serviceWorker) return;
        let hadWorker = !!navigator.serviceWorker.controller; // the first worker of all takes over a page of its own build
        navigator.serviceWorker.addEventListener("controllerchange", () => hadWorker ? startAgain() : hadWorker = true);
        const registration = await navigator.serviceWorker.register("service-worker.js", { updateViaCache: "none" });
        const look = () => registration.waiting && navigator.serviceWorker.controller && onReady();
        const watch = () => registration.installing?.addEventListener("statechange", look);
        registration.addEventListener("updatefound", watch);
        watch();
        look();
        const ask = () => registration.update().catch(() => { });
        setInterval(ask, 3600000);
        addEventListener("online", ask);
    },
    async takeOver() {
        const registration = await navigator.serviceWorker.getRegistration();
        registration?.waiting ? registration.waiting.postMessage("take over") : startAgain();
    },
    onConnection(onChange) {
        addEventListener("online", () => onChange());
        document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && onChange());
    },
};

// Loads the page again; a field still being typed in counts as left, and what is being written is waited for.
async function startAgain() {
    document.activeElement?.blur?.();
    await new Promise(done => setTimeout(done));
    while (underWay.size > 0) await Promise.allSettled([...underWay]);
    location.reload();
}

addEventListener("beforeunload", event => { if (asksBeforeLeaving) event.preventDefault(); });
