// A photo chosen on this device; it stays here.

export async function open(input) {
    const file = input.files?.[0];
    if (!file) { return null; }
    const address = URL.createObjectURL(file);
    const picture = new Image();
    picture.src = address;
    try {
        await picture.decode();
    } catch {
        URL.revokeObjectURL(address);
        return null;
    }
    return { address, width: picture.naturalWidth, height: picture.naturalHeight };
}

export function close(address) { URL.revokeObjectURL(address); }
