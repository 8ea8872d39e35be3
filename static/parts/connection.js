// @ts-check
// The page's connection, kept up. The library that holds it gives up after five tries; here it is tried for ever, with
// growing pauses, and at once when the page is looked at again or the network returns. A script of the page's head.
//
// Others learn of it from `data-connection` of the html element ("up" or "down"), and ask for it by events of the
// document: "halfturn:silent" where an answer has not come, "halfturn:refused" comes where the program closed the
// connection for what it was told.

(() => {
  const library = /** @type {any} */ (globalThis).Bokeh;
  if (!library) return; // a page that is nothing but a message has no connection
  const { ClientConnection } = library.require("client/connection"), { Receiver } = library.require("protocol/receiver");
  const ours = ClientConnection.prototype, connectOnce = ours.connect, closed = ours._on_close;

  const PATIENCE = 10_000; // milliseconds for a connection to be made
  const PAUSES = { first: 250, growth: 2, longest: 30_000 }; // milliseconds between tries
  const QUIET = 1000; // milliseconds before anything is said
  const REFUSED = 1008; // RFC 6455, 7.4.1
  const GONE = "No connection to the program. What you enter is kept in this browser, and what you press is carried out once it is back.";

  const page = document.documentElement;
  /** @type {any} */
  let connection = null;
  /** @type {(() => void) | null} */
  let goOn = null; // of a first connection that waits for its next try
  let tries = 0, leaving = false, timer = 0, saying = 0;

  /** @param {string} words */
  function say(words) {
    const place = document.getElementById("notes"), name = "connection";
    place?.querySelector(`[data-note="${name}"]`)?.remove();
    if (!words || !place) return;
    const line = document.createElement("p"), button = document.createElement("button");
    line.dataset.note = name;
    button.type = "button";
    button.textContent = "Try now";
    button.addEventListener("click", hurry);
    line.append(words, button);
    place.append(line);
  }

  function up() {
    tries = 0;
    clearTimeout(saying);
    saying = 0;
    page.dataset.connection = "up";
    say("");
  }

  /** @param {CloseEvent} event */
  function down(event) {
    page.dataset.connection = "down";
    if (leaving) return;
    if (event.code === REFUSED) document.dispatchEvent(new CustomEvent("halfturn:refused"));
    saying ||= setTimeout(() => say(GONE), QUIET);
    const pause = Math.min(PAUSES.longest, PAUSES.first * PAUSES.growth ** tries++);
    clearTimeout(timer);
    timer = setTimeout(again, pause * (0.5 + Math.random() / 2)); // not all pages of a class at the same moment
  }

  function again() {
    clearTimeout(timer);
    const waits = goOn;
    goOn = null;
    if (waits) waits();
    else if (!connection?.socket && connection?.session) connection.reconnect();
  }

  function hurry() {
    if (page.dataset.connection === "down" && !connection?.socket) again();
  }

  /** Let go of a socket that says nothing: to close it in form would take as long as to wait for it. */
  function drop() {
    const socket = connection?.socket;
    if (!socket) return;
    const { onclose } = socket;
    Object.assign(socket, { onopen: null, onmessage: null, onclose: null, onerror: null });
    socket.close();
    onclose?.call(socket, new CloseEvent("close", { code: 1006, reason: "nothing was heard" }));
  }

  /** One try. @param {any} one */
  async function attempt(one) {
    one._receiver = new Receiver(); // half a message may have been left in it
    const patience = setTimeout(drop, PATIENCE);
    try {
      const session = await connectOnce.call(one);
      up();
      return session;
    } finally {
      clearTimeout(patience);
    }
  }

  ours.connect = async function () {
    connection = this;
    for (;;) {
      try {
        return await attempt(this);
      } catch (error) {
        if (this.session || this.closed_permanently) throw error;
        await new Promise((resolve) => { goOn = () => resolve(null); });
      }
    }
  };

  /** @param {CloseEvent} event @param {(error: Error) => void} reject */
  ours._on_close = function (event, reject) {
    closed.call(this, event, reject);
    if (!this.closed_permanently) down(event);
  };

  ours._schedule_reconnect = () => {}; // `down` does

  for (const event of ["focus", "online"]) addEventListener(event, hurry);
  addEventListener("pageshow", () => { leaving = false; hurry(); });
  addEventListener("pagehide", () => { leaving = true; });
  document.addEventListener("visibilitychange", () => { if (!document.hidden) hurry(); });
  document.addEventListener("halfturn:silent", drop);

  document.addEventListener("DOMContentLoaded", () => {
    const opening = JSON.parse(document.getElementById("opening")?.textContent ?? "null");
    if (opening) library.embed.embed_items({}, [opening]);
  }, { once: true });
})();
