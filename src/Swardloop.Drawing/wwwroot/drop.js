// A file dropped anywhere on the board goes into the field that takes its kind, as if it had been chosen there.

export function accept(board, drawings, photos) {
    const stop = new AbortController();
    const options = { signal: stop.signal };
    const carriesFiles = event => event.dataTransfer?.types.includes("Files") ?? false;
    const leave = () => board.classList.remove("sw-dropping");
    board.addEventListener("dragover", event => {
        if (!carriesFiles(event)) { return; }
        event.preventDefault();
        event.dataTransfer.dropEffect = "copy";
        board.classList.add("sw-dropping");
    }, options);
    board.addEventListener("dragleave", event => { if (!board.contains(event.relatedTarget)) { leave(); } }, options);
    board.addEventListener("drop", event => {
        leave();
        if (event.defaultPrevented) { return; } // a board within the page has taken it
        const file = event.dataTransfer?.files[0];
        // The fields themselves take what is dropped on them.
        if (!file || event.target.matches?.("input[type=file]")) { return; }
        event.preventDefault();
        const one = new DataTransfer();
        one.items.add(file);
        const field = file.type.startsWith("image/") ? photos : drawings;
        if (!field) { return; }
        field.files = one.files;
        field.dispatchEvent(new Event("change", { bubbles: true }));
    }, options);
    return { detach() { stop.abort(); } };
}

// The same for a whole page that takes drawings only.
export function acceptAnywhere(drawings) {
    return accept(document.body, drawings, null);
}
