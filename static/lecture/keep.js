// What the browser keeps of a lecture, so that it goes on after a reload; the
// presenter's page in the same browser; and how the chart beside the words is found.

const KEEP = "halfturn.lecture";
const CHANNEL = "halfturn.lecture";

// What was kept, as far as it can be used; whatever is wrong with it is left out.
export function kept() {
  let found = null;
  try { found = JSON.parse(localStorage.getItem(KEEP)); } catch { /* nothing kept, or nothing readable */ }
  const isRecord = value => typeof value === "object" && value !== null && !Array.isArray(value);
  const whole = isRecord(found) ? found : {}, usable = isRecord(whole.problem) && isRecord(whole.notation);
  return {...(usable ? {problem: whole.problem, notation: whole.notation, query: whole.query, showing: whole.showing} : {}),
    frame: String(whole.frame ?? ""), revealed: Array.isArray(whole.revealed) ? whole.revealed.map(String) : [],
    light: String(whole.light ?? "")};
}

export function keep(what) {
  try { localStorage.setItem(KEEP, JSON.stringify(what)); } catch { /* a full or closed store loses nothing on the page */ }
}

// The way to the presenter's page: it is told the state, whenever it changes or is asked for, and asks for acts.
export function makeNotesLink(state, act) {
  const id = Math.random().toString(36).slice(2), channel = new BroadcastChannel(CHANNEL);
  const tell = () => channel.postMessage({from: id, state: state()});
  const leave = () => channel.postMessage({from: id, gone: true});
  channel.onmessage = ({data}) => {
    if (data.ask) tell();
    else if (data.to === id) act(data.act);
  };
  return {tell, leave, close: () => { leave(); channel.close(); }};
}

// The first element of that selector, looked for through the shadow roots under an element.
export function deep(element, selector) {
  const found = element?.querySelector?.(selector);
  if (found || !element) return found;
  for (const child of element.shadowRoot ? [element.shadowRoot] : element.children) {
    const inside = deep(child, selector);
    if (inside) return inside;
  }
  return null;
}
