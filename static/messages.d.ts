// deno-lint-ignore-file no-explicit-any

// Made by `python -m app.parts.messages.typescript`: what the program and the browser say to each other.

/** One of a lesson's solutions: how it is called, and the part that it plays in drawings. */
export interface Branch {
  key: string;
  word: string;
  role: string;
}

/** An entry of a form: a box for a text, or a choice where it has options, or a whole number between two. meanings : of the options, each in a sentence that is said when it is chosen. */
export interface Entry {
  key: string;
  label: string;
  example: string;
  text: string;
  options: Array<[string, string]>;
  least?: number;
  most?: number;
  meanings?: Record<string, string>;
}

/** The entries of the two forms that most pages have, and of how hard random problems are. */
export interface Forms {
  own: Array<Entry>;
  notation: Array<Entry>;
  difficulty: Entry;
}

/** What is wrong with the entries of a form, by their keys. */
export interface Faults {
  form: string;
  faults: Record<string, string>;
}

/** A problem in words. */
export interface ProblemWords {
  key: string;
  title: string;
  story: string;
  given: string;
}

/** A problem that can be chosen. */
export interface Choice {
  key: string;
  title: string;
}

/** A problem that can be chosen, with what it gives; `entries` are those by which its sheet is kept. */
export interface ProblemChoice {
  key: string;
  title: string;
  given: string;
  entries: Record<string, string>;
}

/** A term of the trade: the words that stand for it, and what it means. */
export interface TermWords {
  words: Array<string>;
  meaning: string;
}

/** A judgement: its kind, its sign and word, and a sentence. */
export interface Mark {
  judgement: string;
  sign: string;
  word: string;
  sentence: string;
}

/** A judgement of an entry, and what may be done about it. */
export interface VerdictWords {
  judgement: string;
  sign: string;
  word: string;
  sentence: string;
  canCarry: boolean;
  carried: boolean;
  backTo: string;
}

/** Where in a set a problem stands, and the addresses of the set's page and of the next problem, "" for none. */
export interface SetPlace {
  title: string;
  number: number;
  count: number;
  address: string;
  next: string;
}

/** A limit of the standing-wave ratio, and which design has the wider band within it, in a sentence. */
export interface Limit {
  limit: number;
  why: string;
}

/** One design over frequency: its standing-wave ratios, its band within each limit, and how much line it takes. */
export interface Curve {
  branch: Branch | null;
  swr: Array<number>;
  bands: Array<string>;
  line: string;
}

/** The designs over frequency. `table` has a row for some frequencies, with the ratio of each design. */
export interface ResponseWords {
  lowest: number;
  highest: number;
  megahertz: number | null;
  limits: Array<Limit>;
  limit: number;
  curves: Array<Curve>;
  table: Array<Array<string>>;
  note: string;
}

/** A settled field in one line. */
export interface SettledValue {
  which: string;
  text: string;
  judgement: string;
  sign: string;
  carried: string;
}

/** What the sheet asks in one box or one choice. */
export interface SheetField {
  key: string;
  label: string;
  options: Array<[string, string]>;
  value: string;
  example: string;
  unit: string;
  text: string;
  drawable: boolean;
  settled: boolean;
  verdict: VerdictWords | null;
}

/** A step on the sheet. */
export interface SheetStep {
  key: string;
  title: string;
  done: boolean;
  ask: string;
  because: string;
  values: Array<SettledValue>;
  said: string;
  fields: Array<SheetField>;
  hints: Array<string>;
  worked: Array<string>;
  nextHint: string;
  drill: boolean;
}

/** How much of the problem the tutor works, and what may be chosen. */
export interface WorkedChoice {
  chosen: string;
  options: Array<[string, string]>;
}

/** Queries of the addresses that bring the problem, or the whole sheet. */
export interface SheetLinks {
  problem: string;
  sheet: string;
}

/** What a finished sheet comes to. `backTo` is the step that went wrong, if one did. */
export interface Outcome {
  title: string;
  solved: boolean;
  sentences: Array<string>;
  backTo: string;
  power: Array<string>;
  response: ResponseWords | null;
}

/** A step that is drilled alone: which of how many loads, how it went so far, and where it was begun from. difficulty : what is said of it after all else, "" for the usual one. */
export interface DrillWords {
  title: string;
  number: number;
  loads: number;
  difficulty: string;
  went: Array<boolean>;
  back: Record<string, string>;
}

/** All that the sheet shows. `fresh` says that another problem was chosen, `brought` that a link or file came, `restored` that this is what a record held, `damaged` that none could be read, `newer` that a later version of the program made it. `drill` stands where one step is drilled; `step.drill` where that is offered. `primer` names the lesson's primer in this notation, "" without one. `asked` says that a link chose the lesson. */
export interface SheetPage {
  lesson: string;
  lessonKey: string;
  problem: ProblemWords;
  notices: Array<string>;
  refusal: string;
  guided: boolean;
  drill: DrillWords | null;
  primer: string;
  worked: WorkedChoice;
  undo: string;
  steps: Array<SheetStep>;
  count: number;
  outcome: Outcome | null;
  focus: string;
  shown: number;
  lessons: Array<Choice>;
  choices: Array<ProblemChoice>;
  terms: Array<TermWords>;
  entries: Record<string, string>;
  forms: Forms;
  links: SheetLinks;
  caution: string;
  record: Record<string, any>;
  set: SetPlace | null;
  fresh?: boolean;
  linked?: boolean;
  asked?: boolean;
  brought?: boolean;
  restored?: boolean;
  damaged?: boolean;
  newer?: boolean;
}

/** An answer drawn on the chart, for its box. `value` is what was handed in, which tells it from others. */
export interface Draft {
  field: string;
  value: any;
  text: string;
}

/** Drawings to save as files. */
export interface Drawings {
  name: string;
  drawings: Array<string>;
  kind: string;
}

/** An entry for one value of a working. */
export interface CheckField {
  key: string;
  label: string;
  options: Array<[string, string]>;
  example: string;
  text: string;
  fault: string;
}

/** A line of the working, and what is said of it. */
export interface LineWords {
  key: string;
  field: string;
  label: string;
  written: string;
  verdict: VerdictWords;
  notes: Array<string>;
  solver: string;
}

/** A step of the lesson with the lines that belong to it. */
export interface CheckStep {
  key: string;
  number: number;
  title: string;
  ask: string;
  goal: Array<string>;
  fields: Array<CheckField>;
  lines: Array<LineWords>;
}

/** A finished design and what it achieves. */
export interface Design {
  key: string;
  title: string;
  lengths: string;
  verdict: Mark;
  mayAsk: boolean;
  offs: Array<string>;
}

/** How lines are written: some examples, the names of each value, and a word on units and solutions. */
export interface Writing {
  examples: Array<string>;
  glossary: Array<[string, string]>;
  note: string;
}

/** Symbols that may be taken for the page, in words, and the notation that has them. */
export interface SymbolsOffer {
  words: string;
  texts: Record<string, string>;
}

/** All that is said of a working. */
export interface MarkedWorking {
  lesson: string;
  lessonKey: string;
  problem: ProblemWords;
  refusal: string;
  text: string;
  summary: string;
  remarks: Array<string>;
  offer: SymbolsOffer | null;
  unread: Array<string>;
  steps: Array<CheckStep>;
  designs: Array<Design>;
  writing: Writing;
  lessons: Array<Choice>;
  choices: Array<ProblemChoice>;
  entries: Record<string, string>;
  forms: Forms;
  caution: string;
}

/** All that the self-check shows. `fresh` says that another problem was chosen, `restored` that this is what a record held, `damaged` that none could be read, `newer` that a later version of the program made it. */
export interface CheckPage {
  lesson: string;
  lessonKey: string;
  problem: ProblemWords;
  refusal: string;
  text: string;
  summary: string;
  remarks: Array<string>;
  offer: SymbolsOffer | null;
  unread: Array<string>;
  steps: Array<CheckStep>;
  designs: Array<Design>;
  writing: Writing;
  lessons: Array<Choice>;
  choices: Array<ProblemChoice>;
  entries: Record<string, string>;
  forms: Forms;
  caution: string;
  notices: Array<string>;
  chosen: boolean;
  record: Record<string, any>;
  fresh?: boolean;
  linked?: boolean;
  restored?: boolean;
  damaged?: boolean;
  newer?: boolean;
}

/** A value that a frame leads to. */
export interface Outcome {
  label: string;
  branch: Branch | null;
  text: string;
}

/** A mistake to warn of. */
export interface UsualSlip {
  doing: string;
  remedy: string;
  gives: Array<string>;
}

/** One construction, with its strokes as the stage draws them; each also has words that keep its value back. picture : the line drawing in place of a construction, else empty. response : the designs over frequency in place of one. waves : which of the script's pictures of voltage and current may be seen before the values are revealed, and which after; -1 for none. */
export interface FrameWords {
  key: string;
  step: string;
  number: number;
  title: string;
  branch: Branch | null;
  ask: string;
  rule: string;
  numbers: string;
  because: string;
  outcomes: Array<Outcome>;
  strokes: Array<Record<string, any>>;
  slips: Array<UsualSlip>;
  spoken: string;
  spoken_values: string;
  picture: Record<string, any>;
  response: ResponseWords | null;
  waves: [number, number];
}

/** The set that a lecture goes through: the titles of its problems, and notes for who teaches. */
export interface LectureSet {
  title: string;
  number: number;
  count: number;
  address: string;
  next: string;
  titles: Array<string>;
  notes: Array<string>;
}

/** All frames of a lecture, and what the forms and links say of its problem. */
export interface Script {
  lesson: string;
  given: string;
  brief: string;
  refusal: string;
  frames: Array<FrameWords>;
  waves: Array<Record<string, any>>;
  showing: string;
  showings: Array<[string, string]>;
  movable: boolean;
  lessonKey: string;
  entries: Record<string, string>;
  notation: Record<string, string>;
  forms: Forms;
  query: string;
  lessons: Array<Choice>;
  choices: Array<ProblemChoice>;
  ways: Array<[string, string]>;
  caution: string;
  set: LectureSet | null;
  notices?: Array<string>;
  linked?: boolean;
  at?: string;
  passing?: boolean;
}

/** One of the ways to say what is printed, with its entries. */
export interface Kind {
  key: string;
  words: string;
  entries: Array<Entry>;
}

/** What the paper view's form offers: the kinds of problem, the paper and the notation. */
export interface PaperForm {
  lessons: Entry;
  kind: string;
  kinds: Array<Kind>;
  paper: Array<Entry>;
  notation: Array<Entry>;
  faults: Record<string, string>;
}

/** What is known before the first sheet comes. faults : why there is nothing to solve, by given. */
export interface PaperStart {
  run: number;
  sheets: number;
  size: string;
  millimetres: Array<number>;
  link: string;
  faults: Record<string, string>;
}

/** A page to print: its own texts, and indices of texts that several pages share. */
export interface PaperPage {
  kind: string;
  name: string;
  title: string;
  description: string;
  parts: Array<string | number>;
}

/** The pages of one sheet, and the shared texts that come with them. */
export interface PaperSheet {
  run: number;
  index: number;
  pages: Array<PaperPage>;
  parts: Array<string>;
}

/** A set that can be chosen, and how many problems it has. */
export interface SetChoice {
  title: string;
  address: string;
  count: number;
}

/** A problem of a set, in a student's variant where there is one. `entries` are those by which its sheet is kept. */
export interface SetProblemWords {
  key: string;
  title: string;
  lesson: string;
  given: string;
  address: string;
  entries: Record<string, string>;
}

/** A set. `varies` says whether numbers follow from the name; `name` and `code` are empty where none was given. */
export interface SetWords {
  key: string;
  title: string;
  version: number;
  varies: boolean;
  name: string;
  code: string;
  fault: string;
  problems: Array<SetProblemWords>;
  lecture: string;
}

/** All that the page of sets shows. `guide` is for an instructor: what is done, and by which command or where. */
export interface SetsPage {
  sets: Array<SetChoice>;
  set: SetWords | null;
  notices: Array<string>;
  guide: Array<[string, string]>;
}

/** A part of a figure: what of the plane is seen, whether it is the chart, and what runs across. */
export interface PanelWords {
  key: string;
  left: number;
  right: number;
  bottom: number;
  top: number;
  round: boolean;
  across: string;
}

/** Something drawn in a panel: a point, or a line through points. */
export interface MarkWords {
  panel: string;
  kind: string;
  role: string;
  label: string;
  points: Array<[number, number]>;
}

/** A figure with the hand in one place: the point in hand, what follows from it, and the same in words. */
export interface PoseWords {
  hand: MarkWords;
  marks: Array<MarkWords>;
  said: string;
}

/** A figure with all its poses. */
export interface FigureWords {
  title: string;
  holds: string;
  panels: Array<PanelWords>;
  still: Array<MarkWords>;
  poses: Array<PoseWords>;
  start: number;
}

/** What stands before a lesson. `key` is that by which it was asked for. */
export interface PrimerWords {
  key: string;
  title: string;
  paragraphs: Array<string>;
  figure: FigureWords | null;
}

/** A step that went wrong: how often, in words, and the query that drills it. */
export interface WeakStep {
  lesson: string;
  title: string;
  said: string;
  query: string;
}

/** Where a student stands in a lesson, and the queries that open it, or a fresh problem of it. `state` is new, begun, solid or due; `said` the same in a sentence. */
export interface LessonStanding {
  key: string;
  title: string;
  purpose: string;
  needs: Array<Choice>;
  state: string;
  sign: string;
  word: string;
  said: string;
  query: string;
  fresh: string;
  primer: string;
  weak: Array<WeakStep>;
}

/** All that the course page shows: the lessons, the steps to drill first, and what could not be read. */
export interface CoursePage {
  lead: Array<string>;
  lessons: Array<LessonStanding>;
  weak: Array<WeakStep>;
  faults: Array<string>;
  known: boolean;
  caution: string;
}

/** Rows of the table of all that was done; `last` where no more come. */
export interface TablePart {
  text: string;
  last: boolean;
}

/** What the practise page says was done. */
export type PractiseSaid =
  | { do: "enter"; field: string; text: string }
  | { do: "draw"; field: string; value: unknown; plotted: "half turn" | "overlay" }
  | { do: "check drawing"; field: string; value: unknown; plotted: "half turn" | "overlay" }
  | { do: "carry"; field: string }
  | { do: "hint"; step: string }
  | { do: "focus"; field: string }
  | { do: "show next" }
  | { do: "worked"; how: "all" | "first" | "none" }
  | { do: "undo" }
  | { do: "start over" }
  | { do: "lesson"; key: string }
  | { do: "open"; key: string }
  | { do: "random"; difficulty?: "round" | "any" | "hard" }
  | { do: "own problem"; texts: Record<string, string> }
  | { do: "drill"; step: string; difficulty?: "round" | "any" | "hard" }
  | { do: "next load" }
  | { do: "primer" }
  | { do: "progress"; record: unknown }
  | { do: "notation"; texts: Record<string, string> }
  | { do: "open file"; record: unknown }
  | { do: "export"; what: "chart" | "sheet"; kind: "svg" | "png" }
  | { do: "restore"; record: unknown };

/** What the check page says was done. */
export type CheckSaid =
  | { do: "mark"; text: string }
  | { do: "entries"; text: string; texts: Record<string, string> }
  | { do: "ask"; key: string }
  | { do: "clear" }
  | { do: "own problem"; texts: Record<string, string> }
  | { do: "lesson"; key: string }
  | { do: "open"; key: string }
  | { do: "notation"; texts: Record<string, string> }
  | { do: "restore"; record: unknown };

/** What the lecture page says was done. */
export type LectureSaid =
  | { do: "own problem"; texts: Record<string, string> }
  | { do: "notation"; texts: Record<string, string> }
  | { do: "lesson"; key: string }
  | { do: "open"; key: string }
  | { do: "random"; difficulty?: "round" | "any" | "hard" }
  | { do: "of the set"; by: number }
  | { do: "showing"; showing: string }
  | { do: "restore"; problem: unknown; notation: unknown; showing: unknown }
  | { do: "move"; on: boolean }
  | { do: "trace"; at: unknown }
  | { do: "put"; value: unknown; plotted: "half turn" | "overlay" };

/** What the paper page says was done. */
export type PaperSaid =
  | { do: "make"; texts: Record<string, string> };

/** What the sets page says was done. */
export type SetsSaid =
  | { do: "name"; text: string };

/** What the course page says was done. */
export type CourseSaid =
  | { do: "look"; sheets: unknown; progress: unknown; first: boolean; last: boolean }
  | { do: "table"; sheets: unknown; first: boolean; last: boolean }
  | { do: "primer"; key: string };
