/// <reference lib="deno.ns" />
// @ts-check
// What all pages share: what the browser keeps, the words, and the files that it saves.

import { deepStrictEqual as equal, throws } from "node:assert/strict";
import { MOST_SHEETS, recall, retain, shelf, shelved, signature } from "halfturn/parts/keeping.js";
import { present } from "halfturn/parts/nodes.js";
import { unanswered } from "halfturn/parts/outbox.js";
import { checksum, packed, sizeInDots, withResolution, zipOf } from "halfturn/parts/save.js";
import { readStore, typedSince } from "halfturn/parts/store.js";
import { branchWords, count } from "halfturn/parts/words.js";

const sheet = (/** @type {string} */ name) => ({ record: { name }, drafts: {} });

Deno.test("the sheet saved last counts as the one worked on, and stands once", () => {
  const store = shelved(shelved(shelved({ sheets: {}, last: null }, "a", sheet("1")), "b", sheet("2")), "a", sheet("3"));

  equal(Object.keys(store.sheets), ["b", "a"]);
  equal([store.last, store.sheets.a.record.name], ["a", "3"]);
});

Deno.test("the oldest sheets make room for new ones", () => {
  /** @type {import("halfturn/parts/keeping.js").Store} */
  let store = { sheets: {}, last: null };
  for (let i = 0; i < MOST_SHEETS + 2; i++) store = shelved(store, `sheet ${i}`, sheet(String(i)));

  equal(Object.keys(store.sheets).length, MOST_SHEETS);
  equal(Object.keys(store.sheets)[0], "sheet 2");
});

/** What a test of the store needs of a page: a place for notes that shows none. */
function withPage(/** @type {() => void} */ test) {
  const page = /** @type {any} */ (globalThis), line = { dataset: {}, append() {}, addEventListener() {} };
  page.document = { createElement: () => line, getElementById: () => null, querySelector: () => null };
  try { test(); } finally { delete page.document; }
}

Deno.test("whatever stands in the store that is no shelf counts as an empty one", () => withPage(() => {
  const empty = { sheets: {}, last: null };
  for (const text of ["", "{", "null", "3", '{"sheets": 3}', "[]"]) {
    localStorage.setItem("test", text);
    equal(shelf("test").kept(), empty);
  }
}));

Deno.test("what is kept comes back, by the problem that a page is about", () => {
  const page = { entries: { load: "25" }, record: { version: 1 } }, one = shelf("test");
  localStorage.removeItem("test");
  one.save(page, { place: "0.5" });

  equal(one.of(page), { record: { version: 1 }, drafts: { place: "0.5" }, revision: 1 });
  equal(one.of({ entries: { load: "50" } }), undefined);
  equal(one.kept().last, signature(page));
});

Deno.test("what cannot be kept loses nothing on the page", () => {
  const circular = /** @type {Record<string, unknown>} */ ({});
  circular.self = circular;
  retain("test", "before");
  retain("test", circular);

  equal(recall("test"), "before");
});

Deno.test("empty children are left out, a zero in words stays", () => {
  equal(present(["a", "", null, undefined, false, "0"]), ["a", "0"]);
});

Deno.test("a solution is told by a marker of its role, never by colour alone", () => {
  const markers = ["first", "second", "third", "fourth"].map((role) => branchWords({ key: "k", word: "word", role }));

  equal(new Set(markers).size, 4);
  equal(markers[0], "▲ word");
});

Deno.test("one thing is told from several", () => {
  equal(["0 sheets", "1 sheet", "2 sheets"], [0, 1, 2].map((number) => count(number, "sheet")));
});

Deno.test("the checksum of the digits 1 to 9 is CBF43926", () => {
  // Check value of CRC-32 (ISO 3309), from memory.
  equal(checksum(new TextEncoder().encode("123456789")), 0xcbf43926);
});

Deno.test("numbers are packed with the lowest byte first", () => {
  equal([...packed([0x04034b50, 20], [4, 2])], [0x50, 0x4b, 3, 4, 20, 0]);
  equal([...packed([0xffffffff], [4])], [255, 255, 255, 255]);
});

Deno.test("an archive lists its files at its end, and holds them as they are", async () => {
  // PKZIP application note 6.3, 4.3.16: the record of the end is 22 bytes long and says how many files there are.
  const archive = new Uint8Array(await (await zipOf([["ä.svg", new Blob(["<svg/>"])], ["b.svg", new Blob(["text"])]])).arrayBuffer());
  const end = new DataView(archive.buffer, archive.length - 22), text = new TextDecoder().decode(archive);

  equal([end.getUint32(0, true), end.getUint16(10, true)], [0x06054b50, 2]);
  equal(new DataView(archive.buffer).getUint32(end.getUint32(16, true), true), 0x02014b50);
  equal([text.includes("ä.svg<svg/>"), text.includes("b.svgtext")], [true, true]);
});

Deno.test("a picture is as large as its page at 300 dots an inch", () => {
  equal(sizeInDots('<svg xmlns="x" width="254mm" height="25.4mm">'), { width: 3000, height: 300 });
  throws(() => sizeInDots('<svg viewBox="0 0 1 1">'), /does not say its size/);
});

Deno.test("a picture says its resolution after its header", async () => {
  // Portable Network Graphics, 3rd ed., 11.3.4.3: nine bytes of dots per metre along both axes and the unit.
  const png = new Uint8Array(40).fill(7), made = new DataView(await withResolution(png.buffer, 300).arrayBuffer());

  equal(made.byteLength, 61);
  equal([made.getUint32(33), made.getUint32(41), made.getUint32(45), made.getUint8(49)], [9, 11811, 11811, 1]);
  equal(made.getUint8(54), 7);
});

Deno.test("of a damaged store the good sheets are used, and the text of the others is kept", () => {
  const good = { record: { sheet: {} }, drafts: { place: "1" }, revision: 3 };
  const { store, damaged } = readStore(JSON.stringify({ sheets: { a: good, b: {}, c: { record: 3, drafts: {} } }, last: "b" }));

  equal(store, { sheets: { a: good }, last: null });
  equal(damaged, ['{"b":{}}', '{"c":{"record":3,"drafts":{}}}']);
  equal(readStore(null), { store: { sheets: {}, last: null }, damaged: [] });
});

Deno.test("what was typed here since goes on top of what another tab has kept", () => {
  equal(typedSince({ a: "1", b: "2", c: "3" }, { a: "1", b: "1" }), { b: "2", c: "3" });
});

Deno.test("an answer settles what was said up to it", () => {
  equal(unanswered([{ number: 1, do: "enter" }, { number: 2, do: "hint" }], 1), [{ number: 2, do: "hint" }]);
});

Deno.test("a tab that has not seen the newest revision does not write over it", () => {
  const page = { entries: { load: "25" }, record: { version: 1 } }, name = signature(page);
  localStorage.removeItem("tabs");
  const one = shelf("tabs");
  one.save(page, {});
  localStorage.setItem("tabs", JSON.stringify(shelved(one.kept(), name, { record: { version: 2 }, drafts: { a: "1" }, revision: 9 })));
  one.save(page, { b: "2" });

  equal(one.kept().sheets[name].record, { version: 2 });
  equal(one.newer(page, { b: "2" })?.drafts, { a: "1", b: "2" });
  equal(one.newer(page, {}), undefined);
});
