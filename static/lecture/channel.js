// @ts-check
// The way between a lecture and the presenter's page in the same browser; the server is not asked.

const CHANNEL = "halfturn.lecture";

/** What the presenter's page is told. @typedef {Record<string, any>} State */

/**
 * The lecture's end: it tells its state, whenever that changes or is asked for, and is asked for acts.
 * @param {() => State} state @param {(act: string) => void} act
 */
export function makeNotesLink(state, act) {
  const id = Math.random().toString(36).slice(2), channel = new BroadcastChannel(CHANNEL);
  const tell = () => channel.postMessage({ from: id, state: state() });
  const leave = () => channel.postMessage({ from: id, gone: true });
  channel.onmessage = ({ data }) => {
    if (data.ask) tell();
    else if (data.to === id) act(data.act);
  };
  return { tell, leave, close: () => { leave(); channel.close(); } };
}

/**
 * The presenter's end: it follows the lecture that was heard last.
 * @param {(state: State) => void} show @param {() => void} alone where that lecture has gone
 */
export function makeLectureLink(show, alone) {
  const channel = new BroadcastChannel(CHANNEL);
  let lecture = "";
  channel.onmessage = ({ data }) => {
    if (data.gone && data.from === lecture) return alone();
    if (!data.state) return undefined;
    lecture = data.from;
    return show(data.state);
  };
  channel.postMessage({ ask: true });
  return { ask: (/** @type {string} */ act) => channel.postMessage({ to: lecture, act }), close: () => channel.close() };
}
