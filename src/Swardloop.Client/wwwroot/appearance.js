// Before the first paint: light, dark, for sun on the glass, or as the device has it. A file of its own, since no script may stand in the page.
const appearance = localStorage.getItem("appearance");
if (["light", "dark", "sun"].includes(appearance)) document.documentElement.dataset.appearance = appearance;
document.documentElement.lang = localStorage.getItem("language") ?? "en";

// The program did not come whole: the server was away at the first visit, or went away meanwhile. Then this page says so, not only the browser.
function sayServerIsAway() {
    const said = document.querySelector(".starting p");
    if (!said) return;
    said.textContent = document.documentElement.lang === "de" || (!localStorage.getItem("language") && navigator.language.startsWith("de"))
        ? "Der Server der Werkstatt antwortet nicht. Ist der Rechner an, auf dem er läuft, und ist dieses Gerät im selben Netz? Dann die Seite neu laden."
        : "The workshop's server does not answer. Is the computer it runs on switched on, and is this device in the same network? Then load the page again.";
    document.querySelector(".starting-bar")?.remove();
}

addEventListener("error", event => event.target?.tagName === "SCRIPT" && sayServerIsAway(), true);
addEventListener("unhandledrejection", sayServerIsAway);
