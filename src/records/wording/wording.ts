/** How one code is worded. `{found}` and `{expected}` stand for the problem's own texts. */
export interface Wording {
  /** One line for the list of all codes: what it means. */
  readonly explanation: string;
  /** The printed sentence. */
  readonly message: string;
  /** The remedy; a nearest valid name, where there is one, takes its place. */
  readonly hint: string;
}

/** Wordings of some codes, checked against the codes by `problem-wording.ts`. */
export type Wordings = Readonly<Record<string, Wording>>;
