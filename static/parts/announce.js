// @ts-check
// What the page says of itself: aloud, in a region that was there before, or in a line in its corner.

const AGAIN = 100; // milliseconds after which words that were just said count as said anew

/** @type {ReturnType<typeof setTimeout> | undefined} */
let saying;

/** Have words read aloud where the page is heard; the same words again are read again. @param {string} words */
export function announce(words) {
  const place = document.getElementById("spoken");
  clearTimeout(saying);
  if (!place || !words) return;
  if (place.textContent !== words) place.textContent = words;
  else {
    place.textContent = "";
    saying = setTimeout(() => { place.textContent = words; }, AGAIN);
  }
}

/**
 * Say something in the corner of the page, in place of what was said there under the same name.
 * @param {string} name @param {string} words
 * @param {Record<string, () => void>} [acts] what can be done about it, by the words on its button
 */
export function note(name, words, acts = {}) {
  const place = globalThis.document?.getElementById("notes");
  if (!place) return;
  const line = document.createElement("p");
  line.dataset.note = name;
  line.append(words);
  for (const [label, act] of Object.entries(acts)) {
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = label;
    button.addEventListener("click", act);
    line.append(button);
  }
  unnote(name);
  place.append(line);
}

/** @param {string} name */
export function unnote(name) {
  document.querySelector(`#notes [data-note="${name}"]`)?.remove();
}

/** Something to dismiss a line with. @param {string} name */
export function dismissing(name) {
  return { "Close": () => unnote(name) };
}
