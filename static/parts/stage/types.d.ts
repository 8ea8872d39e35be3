// What the modules of the stage hand to each other, and what comes from Python (app/parts/plotting.py).

/** A point of the chart, u + jv, or a place on the screen, right and down. */
export type Pair = [number, number];
export type Pairs = Pair[];

/** Radii of the printed scales, in radii of the chart. */
export interface Layout { extent: number; generator: number; names: number; load: number; angle: number; text: number; tick: number }

/** How the course writes (lessons/grammar/notation.py), as far as the stage asks. */
export interface Notation { admittance: string; angle: string; length: string; decimals: number; [name: string]: unknown }

export interface Stroke {
  kind: "point" | "ring" | "curve" | "way" | "cross" | "ray" | "region";
  role: string; label: string; value: string; spoken: string;
  at: Pair; center: Pair; radius: number; start: number; sweep: number; from: Pair; to: Pair; inside: boolean;
  whole?: boolean; // that name and value are both written, however little room there is
}
export interface Group { key: string; current: boolean; strokes: Stroke[] }

/** A gesture that is asked for; `moves` says which element of which solution's network moves along with a walk. */
export interface Task {
  kind: "place" | "on circle" | "radius" | "along" | "along circle" | "pick";
  field: string; prompt: string; turn: number; read_as: "impedance" | "admittance"; turned: boolean;
  moves: { branch: string | null; element: number } | null;
  tells?: boolean; // that the page is told while the point is being moved
  start: Pair; center: Pair; radius: number; points: [string, number, number][];
}

/** What carries out a task. `at` is the point that is held, null before one is. */
export interface Hand {
  task: Task; touched: boolean; at: Pair | null;
  moveTo(point: Pair): void; press(way: Pair, fine: boolean): void; answer(): unknown; settle?(): void;
  walked?: number; asked?: number; index?: number; size?(): number; turned?: number;
  read(): [string, string][];
}

/** An answer as it is handed in ("halfturn:drawn"), and how admittance was plotted where it was drawn. */
export interface HandedIn { field: string; value: unknown; plotted: "half turn" | "overlay" }

/** A stroke as it is drawn: how much of it, and its nodes. */
export interface Drawn {
  stroke: Stroke; given: Stroke; current: boolean; part: number; nodes: Record<string, SVGElement>; labelNode?: SVGElement;
}
export interface Box { x: number; y: number; width: number; height: number }
export interface Placed extends Box { item: Drawn; text: string; turn: number; letters: number; patch: Pair | null }

/** A component's twin of its Python object (Panel). */
export interface Model {
  strokes: Group[]; points: string[][]; gesture: Task | null; notation: Notation; label: string;
  // deno-lint-ignore no-explicit-any
  on(event: string, heard: (message: any) => void): void;
}
