// Before the first paint: light, dark, or as the device has it. A file of its own, since no script may stand in the page.
const appearance = localStorage.getItem("appearance");
if (appearance === "light" || appearance === "dark") document.documentElement.dataset.appearance = appearance;
document.documentElement.lang = localStorage.getItem("language") ?? "en";
