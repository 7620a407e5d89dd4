// What a phone has beside its screen: a lamp that may stay lit, a position, a camera. Loaded after page.js, whose functions it joins.
let staysAwake = false, lock = null, onAwake = () => { };

async function takeLock() {
    if (!staysAwake || lock || document.visibilityState !== "visible") return;
    try {
        const taken = await navigator.wakeLock.request("screen");
        if (!staysAwake) { taken.release(); return; }
        lock = taken;
        lock.addEventListener("release", () => { if (lock === taken) { lock = null; onAwake(false); } });
        onAwake(true);
    } catch { onAwake(false); } // battery low, or the browser will not
}

document.addEventListener("visibilitychange", takeLock);

async function drawn(picture, longest) {
    const scale = Math.min(1, longest / Math.max(picture.width, picture.height));
    const canvas = document.createElement("canvas");
    [canvas.width, canvas.height] = [Math.max(1, Math.round(picture.width * scale)), Math.max(1, Math.round(picture.height * scale))];
    const pen = canvas.getContext("2d");
    pen.imageSmoothingQuality = "high";
    pen.drawImage(picture, 0, 0, canvas.width, canvas.height);
    const blob = await new Promise(done => canvas.toBlob(done, "image/jpeg", 0.82));
    return new Uint8Array(await blob.arrayBuffer());
}

Object.assign(globalThis.swardloop, {
    canStayAwake: () => "wakeLock" in navigator,
    // Keeps the screen lit, and again after the page was hidden; tells when that changes.
    stayAwake(on, onState) {
        [staysAwake, onAwake] = [on, onState];
        if (on) takeLock();
        else lock?.release();
    },
    // "latitude longitude accuracy" in degrees and metres, or why not: "denied", "absent" or "late".
    position: () => new Promise(done => navigator.geolocation
        ? navigator.geolocation.getCurrentPosition(
            ({ coords }) => done(`${coords.latitude} ${coords.longitude} ${coords.accuracy}`),
            fault => done(fault.code === 1 ? "denied" : fault.code === 3 ? "late" : "absent"),
            { enableHighAccuracy: true, timeout: 20000, maximumAge: 0 })
        : done("absent")),
    // The photo chosen in a field, drawn anew upright and smaller: of the file nothing is left but the picture. Null when it is no picture.
    async shrink(field, longest, shortest) {
        const input = document.getElementById(field), file = input?.files[0];
        if (!file) return null;
        const modified = file.lastModified;
        let picture;
        try { picture = await createImageBitmap(file, { imageOrientation: "from-image" }); } catch { return null; } finally { input.value = ""; }
        try {
            return { large: await drawn(picture, longest), small: await drawn(picture, shortest), modified };
        } finally { picture.close(); }
    },
    hold(key, bytes) { held.set(key, bytes); },
    async keepPhoto(key, bytes) { await transact(["photos"], all => all.objectStore("photos").put(bytes, key)).catch(() => { }); },
    async photo(key) {
        const bytes = await asked((await store()).transaction("photos").objectStore("photos").get(key));
        return bytes ? { bytes } : null;
    },
    // A line for each photo: its key, a blank, its bytes. One by one, so that they are never in memory together.
    photoSizes: () => store().then(open => new Promise((done, failed) => {
        const lines = [], reading = open.transaction("photos").objectStore("photos").openCursor();
        reading.onerror = () => failed(reading.error);
        reading.onsuccess = () => {
            const row = reading.result;
            if (!row) return done(lines.join("\n"));
            lines.push(`${row.key} ${row.value.byteLength}`);
            row.continue();
        };
    })),
    async dropPhotos(keys) { await transact(["photos"], all => keys.forEach(key => all.objectStore("photos").delete(key))).catch(() => { }); },
    show: bytes => URL.createObjectURL(new Blob([bytes], { type: "image/jpeg" })),
    hide: url => URL.revokeObjectURL(url),
});
