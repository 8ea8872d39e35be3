// @ts-check
// The page around the views: light or dark by the reader's wish, and the mark that says when it can be used.

// The library imports the scripts of components by a name of its own, made for browsers that cannot do so themselves.
/** @type {any} */ (globalThis).importShim = Object.assign((/** @type {string} */ address) => import(address), { addImportMap() {} });

const root = document.documentElement;
const THEME = "halfturn.theme";

function wished() {
  try { return localStorage.getItem(THEME); } catch { return null; }
}

/** @param {string} theme */
function setTheme(theme) {
  if (theme) root.dataset.theme = theme; else delete root.dataset.theme;
  try { theme ? localStorage.setItem(THEME, theme) : localStorage.removeItem(THEME); } catch { document.dispatchEvent(new CustomEvent("halfturn:unkept")); }
}

const isDark = () => root.dataset.theme ? root.dataset.theme === "dark" : matchMedia("(prefers-color-scheme: dark)").matches;

if (["light", "dark"].includes(wished() ?? "")) root.dataset.theme = wished() ?? "";

// Whoever has a sheet here goes on with it: the first words of a page without a problem in its address are of another.
const SHEETS = "halfturn.v1"; // as practise/sheet.js keeps them
try { if (!location.search && localStorage.getItem(SHEETS)) root.dataset.goesOn = ""; } catch { /* nothing is kept */ }

function bindThemeButton() {
  const button = document.getElementById("theme");
  if (!button) return;
  const name = () => { button.textContent = isDark() ? "Light page" : "Dark page"; };
  button.addEventListener("click", () => {
    setTheme(isDark() ? "light" : "dark");
    name();
  });
  name();
}

// Each component marks itself when it has rendered; the page is ready when all that it holds are.
function watchComponents() {
  const needed = (document.body.dataset.needs ?? "").split(" ").filter((name) => name);
  const watch = new MutationObserver(() => {
    if (!needed.every((name) => root.dataset[name] === "ready")) return;
    watch.disconnect(); // the mark itself is a change, too
    document.getElementById("first-words")?.remove();
    root.dataset.halfturn = "ready";
  });
  watch.observe(root, { attributes: true });
}

// Once the page has been read, and long before its libraries have come.
document.addEventListener("readystatechange", () => {
  bindThemeButton();
  watchComponents();
}, { once: true });
