// What the browser's own code hands about; what the program says and hears stands in messages.d.ts.

/** What a component is given: its values and the way to the program. */
// deno-lint-ignore no-explicit-any
export type Model<Said, Values = Record<string, any>> = Values & {
  send_msg(said: Said): void;
  // deno-lint-ignore no-explicit-any
  on(event: "msg:custom", listener: (told: any) => void): void;
  on(event: "remove", listener: () => void): void;
};

/** Listeners of a node, by the names that it takes them under. */
export interface Listeners {
  onclick?: (event: MouseEvent & { target: HTMLElement; currentTarget: HTMLElement }) => void;
  onsubmit?: (event: SubmitEvent & { target: HTMLFormElement }) => void;
  oninput?: (event: InputEvent & { target: HTMLInputElement }) => void;
  onchange?: (event: Event & { target: HTMLInputElement }) => void;
  onfocus?: (event: FocusEvent & { target: HTMLInputElement }) => void;
  onkeydown?: (event: KeyboardEvent) => void;
  ontoggle?: (event: Event) => void;
}

/** Attributes of a node; true stands for one without a value, false and null for none. */
export type Attributes = Listeners & { [name: string]: unknown };

export type Child = Node | string | null | undefined | false;

/** What was typed and not yet checked, by the names of the boxes. */
export type Drafts = Record<string, string>;

/** The state of a column: what it shows, what is typed and open, and how it tells the program. */
export interface Desk<Page, Said> {
  root: HTMLElement;
  page: Page;
  drafts: Drafts;
  opened: Set<string>;
  send(said: Said): void;
  save(): void;
}

/** What forms need to know of the page that they are on. */
export interface FormDesk {
  drafts: Drafts;
  save(): void;
  send(said: { do: "own problem" | "notation"; texts: Record<string, string> }): void;
}
