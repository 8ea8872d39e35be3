// What the modules of the line drawing hand to each other. The picture is made by Python: app/parts/line_drawing.

export interface Branch { key: string; word: string; role: string }

export interface Drawable {
  kind: "section" | "stub" | "part" | "box";
  symbol: string;
  text: string;
  length?: number | null;      // wavelengths
  ohms?: number;
  placement?: "shunt" | "series";
  end?: "short" | "open";
  part?: "inductor" | "capacitor" | "wire" | "gap" | "unknown";
}

export interface Plan { branch: Branch | null; form: "trace" | "strips" | ""; faint: boolean; elements: Drawable[]; rows: Row[] }

// Many sections in a row, which are measured and named as one.
export interface Row { first: number; last: number; text: string }

export interface Writing {
  in_a_wavelength: number;
  decimals: number;
  unit: string;
  wavelength_mm: number | null;
  mm_decimals: number;
}

export interface Picture {
  spoken: string;
  caption: string;
  note: string;
  load: string[];
  line: { ohms: number | null; text: string };
  source: string;              // what the generator has inside, where that is what is matched to
  writing: Writing;
  current: number;
  plans: Plan[];
  only?: "line" | "board" | "waves"; // one of the panels; both, where nothing is said, and waves under the line
  waves?: Waves | null;        // what is drawn under the line
}

// Over what there would be without a reflection, at places one after the other from the load on.
export interface Sizes { voltage: number[]; current: number[] }

// Before: the load alone, over half a wavelength. After: of each plan its sections, and as null the line to the
// generator, over half a wavelength; null of a plan that is not complete, or changes nothing. Beside: what is before,
// in words.
export interface Waves { before: Sizes; beside: string; after: (({ element: number | null } & Sizes)[] | null)[] }

// Lengths that are shown now, by plan and element; null where there is none or it is not known.
export type Values = (number | null)[][];

export interface Box { x: number; y: number; w: number; h: number }

export type Spot = [number, number];

export interface Shape {
  tag: "path" | "text";
  part: string;
  look: string;
  d?: string;
  breadth?: number;
  runs?: string[];
  x?: number;
  y?: number;
  anchor?: string;
}

export interface Line { part: string; runs: string[]; look?: string; marker?: string }

// Lines of text that look for room; where there is none a letter stands in for them, at `letter`.
export interface Label {
  part: string;
  lines: Line[];
  spots: (w: number, h: number) => Spot[];
  bounds: Box;
  letter: Spot;
}

// One element in its place: `from` on the load's side, `to` on the generator's.
export interface Placed { element: Drawable; index: number; from: number; to: number; length: number | null; row?: Row }

export interface Link { from: number; to: number }

export interface Axis {
  load: number;
  scale: number;
  placed: Placed[];
  links: Link[];
  end: number;
  at: (wavelengths: number) => number | null;
}

// Something that a stub is, strong or faint: its place and how far it is known.
export interface Hanging {
  element: Drawable;
  index: number;
  plan: number;
  role: string;
  strong: boolean;
  first: boolean;
  x: number;
  length: number | null;
}

export interface Dimension { placed: Placed; lines: Line[]; level: number; middle: number; w: number }

export interface Dimensions { all: Dimension[]; heights: number[] }

export interface Scene {
  picture: Picture;
  strong: Plan;
  role: string;
  axis: Axis;
  hanging: Hanging[];
  half: number;
  spread: number;
  dimensions: Dimensions;
}

export interface Frame { x: number; y: number; w: number; h: number; keyed: number; bend: number; box: number }

export interface Figure { width: number; height: number; shapes: Shape[] }
