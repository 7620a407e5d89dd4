// Before the first paint: light, dark, for sun on the glass, or as the device has it. A file of its own, since no script may stand in the page.
const appearance = localStorage.getItem("appearance");
if (["light", "dark", "sun"].includes(appearance)) document.documentElement.dataset.appearance = appearance;
document.documentElement.lang = localStorage.getItem("language") ?? "en";
