// The names of the two scales of wavelengths, printed between them along the circle, with an arrow each.

const NAMES = {
  regular: { generator: "wavelengths toward generator", load: "wavelengths toward load" },
  compact: { generator: "toward generator", load: "toward load" },
};
const NAME_ROOM = { regular: 17, compact: 11 }; // of the circle for one name, in letter sizes

function drawNames(layer, view, key) {
  const radius = view.radii().names, size = radius * view.scale();
  const count = Math.max(4, 2 * Math.floor((Math.PI * size) / (NAME_ROOM[view.layout] * view.letters()) / 2));
  layer.replaceChildren();
  layer.style.fontSize = `${0.92 * view.letters()}px`;
  for (let i = 0; i < count; i++) drawName(layer, view, radius, ((i + 0.5) * 2 * Math.PI) / count, i % 2 ? "load" : "generator", `${key}-${i}`);
}

function drawName(layer, view, radius, angle, scale, id) {
  const upper = Math.sin(angle) > 0, room = Math.min(1, 260 / (radius * view.scale()));
  const start = angle + (upper ? room : -room), turn = upper ? -2 * room : 2 * room;
  const text = NAMES[view.layout][scale], clockwise = scale === "generator";
  const words = clockwise === upper ? `${text} →` : `← ${text}`;
  const line = shape("text", { class: `name ${scale}`, dy: "0.35em", "text-anchor": "middle" });
  const along = shape("textPath", { href: `#${id}`, startOffset: "50%" }, words);
  line.append(along);
  layer.append(shape("path", { id, d: arcPath(view, [0, 0], radius, start, turn), class: "name-line" }), line);
}
