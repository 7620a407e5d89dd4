// The signal picture on a canvas. The map comes once, as field per ampere; a view turns it once into decibels at every pixel; a change of
// resistance is then one subtraction and one look into a table for each pixel.

const perDecibel = 16, tableFloor = 0, tableTop = 40;

export function create(canvas, legend) {
    const context = canvas.getContext("2d");
    const sheet = new OffscreenCanvas(1, 1), sheetContext = sheet.getContext("2d", { willReadFrequently: true });
    const stop = new AbortController();
    let map = null, rings = [], view = null, offset = 0, levels = [];
    let width = 0, height = 0, scale = 1, image = null, pixels = null;
    let decibels = null, lineWidth = null, silent = null, table = null, line = [0, 0, 0];
    let frame = 0, stale = true;

    // Colours are the legend's own, so that the two cannot differ: one swatch for bare ground, one for its hatching, one for the line, then the shades.
    function readColours() {
        const colours = [...legend.querySelectorAll("[data-shade]")].map(swatch => {
            const probe = new OffscreenCanvas(1, 1).getContext("2d");
            probe.fillStyle = getComputedStyle(swatch).fill;
            probe.fillRect(0, 0, 1, 1);
            return [...probe.getImageData(0, 0, 1, 1).data];
        });
        if (colours.length < 4) { return; }
        const [bare, hatch, firm, ...shades] = colours;
        line = firm;
        table = new Uint32Array((tableTop - tableFloor) * perDecibel + 1);
        for (let i = 0; i < table.length; i++) {
            const margin = tableFloor + i / perDecibel;
            let shade = 0;
            while (shade + 1 < levels.length && margin >= levels[shade + 1]) { shade++; }
            table[i] = pack(shades[shade]);
        }
        silent = { bare, hatch };
    }

    const pack = ([red, green, blue]) => (255 << 24) | (blue << 16) | (green << 8) | red;
    const mix = (from, to, share) => from.map((value, i) => Math.round(value + share * (to[i] - value)));

    // Once for a view: decibels at each pixel, how wide the line of silence is there, the hatching.
    function prepare() {
        width = Math.max(1, Math.round(view.width * scale));
        height = Math.max(1, Math.round(view.height * scale));
        if (canvas.width !== width || canvas.height !== height) {
            canvas.width = width;
            canvas.height = height;
        }
        if (sheet.width !== width || sheet.height !== height) {
            sheet.width = width;
            sheet.height = height;
        }
        if (!image || image.width !== width || image.height !== height) {
            image = sheetContext.createImageData(width, height);
            pixels = new Uint32Array(image.data.buffer);
            decibels = new Float32Array(width * height);
            lineWidth = new Float32Array(width * height);
        }
        const step = 1 / (view.pixelsPerMetre * scale * map.spacing);
        const firstColumn = (view.west - map.west) / map.spacing + step / 2, firstRow = (view.north - map.south) / map.spacing - step / 2;
        const { columns, rows, values } = map;
        for (let y = 0, i = 0; y < height; y++) {
            const row = Math.min(Math.max(firstRow - y * step, 0), rows - 1.000001), south = Math.floor(row), north = row - south;
            const base = south * columns;
            for (let x = 0; x < width; x++, i++) {
                const column = Math.min(Math.max(firstColumn + x * step, 0), columns - 1.000001), west = Math.floor(column), east = column - west;
                const at = base + west;
                const below = values[at] + east * (values[at + 1] - values[at]);
                const above = values[at + columns] + east * (values[at + columns + 1] - values[at + columns]);
                decibels[i] = below + north * (above - below);
            }
        }
        const half = 1.3 * scale;
        for (let y = 0, i = 0; y < height; y++) {
            for (let x = 0; x < width; x++, i++) {
                const right = x + 1 < width ? decibels[i + 1] - decibels[i] : decibels[i] - decibels[i - 1];
                const down = y + 1 < height ? decibels[i + width] - decibels[i] : decibels[i] - decibels[i - width];
                lineWidth[i] = half * Math.sqrt(right * right + down * down);
            }
        }
        const { bare, hatch } = silent, period = Math.round(9 * scale);
        silent.rows = Uint32Array.from({ length: period }, (_, phase) => {
            const across = phase / scale;
            return pack(mix(bare, hatch, Math.max(0, Math.min(1, 1.1 - Math.abs(across - 4)))));
        });
        stale = false;
    }

    function draw() {
        frame = 0;
        if (!map || !view || !table) { return; }
        if (stale) { prepare(); }
        const hatching = silent.rows, period = hatching.length, top = table.length - 1;
        const [red, green, blue] = line;
        for (let y = 0, i = 0; y < height; y++) {
            let phase = y % period;
            for (let x = 0; x < width; x++, i++) {
                const margin = decibels[i] - offset;
                let colour;
                if (margin < 0) {
                    colour = hatching[phase];
                } else {
                    const entry = (margin - tableFloor) * perDecibel | 0;
                    colour = table[entry < top ? entry : top];
                }
                const away = margin < 0 ? -margin : margin, reach = lineWidth[i];
                if (away < reach) {
                    // Full strength along the middle, fading at the edge.
                    const share = Math.min(1, (1 - away / reach) * 2.2);
                    const r = colour & 255, g = colour >> 8 & 255, b = colour >> 16 & 255;
                    colour = 255 << 24 | (b + share * (blue - b) | 0) << 16 | (g + share * (green - g) | 0) << 8 | (r + share * (red - r) | 0);
                }
                pixels[i] = colour;
                if (++phase === period) { phase = 0; }
            }
        }
        sheetContext.putImageData(image, 0, 0);
        context.setTransform(1, 0, 0, 1, 0, 0);
        context.clearRect(0, 0, width, height);
        context.save();
        const factor = view.pixelsPerMetre * scale;
        context.setTransform(factor, 0, 0, -factor, -view.west * factor, view.north * factor);
        context.beginPath();
        for (const ring of rings) {
            for (let k = 0; k < ring.length; k += 2) {
                if (k === 0) { context.moveTo(ring[0], ring[1]); } else { context.lineTo(ring[k], ring[k + 1]); }
            }
            context.closePath();
        }
        context.clip("evenodd");
        context.setTransform(1, 0, 0, 1, 0, 0);
        context.drawImage(sheet, 0, 0);
        context.restore();
    }

    const later = () => { frame ||= requestAnimationFrame(draw); };
    const recolour = () => { readColours(); stale = true; later(); };
    const screenScale = () => Math.min(2, Math.max(1, devicePixelRatio || 1));
    const atOnce = newScale => {
        scale = newScale;
        readColours();
        stale = true;
        draw();
    };

    scale = screenScale();
    matchMedia("(prefers-color-scheme: dark)").addEventListener("change", recolour, { signal: stop.signal });
    const appearance = new MutationObserver(recolour);
    appearance.observe(document.documentElement, { attributes: true });
    // Paper is finer than a screen, and light.
    const printing = matchMedia("print");
    printing.addEventListener("change", () => atOnce(printing.matches ? 3 : screenScale()), { signal: stop.signal });

    return {
        map(bytes, shape, ringList, shadeLevels) {
            const strength = new Float32Array(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength));
            const values = new Float32Array(strength.length);
            for (let i = 0; i < values.length; i++) { values[i] = 20 * Math.log10(Math.max(strength[i], 1e-12)); }
            map = { ...shape, values };
            rings = ringList;
            levels = shadeLevels;
            readColours();
            stale = true;
            later();
        },
        clear() {
            map = null;
            context.clearRect(0, 0, canvas.width, canvas.height);
        },
        view(west, north, pixelsPerMetre, viewWidth, viewHeight) {
            view = { west, north, pixelsPerMetre, width: viewWidth, height: viewHeight };
            stale = true;
            later();
        },
        level(requiredDecibels) {
            offset = requiredDecibels;
            later();
        },
        detach() {
            stop.abort();
            appearance.disconnect();
            if (frame) { cancelAnimationFrame(frame); }
        },
    };
}
