import type { Count, Measured } from "./quantity.js";

/** The three families of statement a page may make; each has its third value, never a forced yes or no. */
export const verdictWordings = {
  conformity: { yes: "conforms", no: "does not conform", undecided: "undecided" },
  change: { yes: "moved", no: "did not move", undecided: "cannot tell" },
  criterion: { yes: "met", no: "not met", undecided: "undecided" },
} as const;

export type VerdictFamily = keyof typeof verdictWordings;

/** A three-valued statement with the quantities it rests on. */
export interface Verdict {
  readonly kind: "verdict";
  readonly family: VerdictFamily;
  readonly outcome: "yes" | "no" | "undecided";
  /** What was decided, as a clause: "every measured key lies inside 35 cN to 55 cN". */
  readonly statement: string;
  /** The rule by which it was decided, with its risk where it has one. */
  readonly rule: string;
  readonly cites: readonly (Measured | Count)[];
}

/** The word that the page prints for a verdict. */
export function verdictWord(verdict: Verdict): string {
  return verdictWordings[verdict.family][verdict.outcome];
}
