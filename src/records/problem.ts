/** Something wrong in an archive, as data; the wording lives in `problem-wording.ts`. */
export interface Problem {
  /** Stable, upper case: `E_ROW_SHORT`. */
  readonly code: string;
  /** `error`: the archive cannot be used as it stands; `warning`: it can, and the page will say so. */
  readonly severity: "error" | "warning";
  /** Path relative to the archive's root. */
  readonly file: string;
  /** 1-based, in the original file. */
  readonly line: number;
  readonly column: number;
  /** Characters of the offending text; at least 1. */
  readonly length: number;
  readonly found: string;
  readonly expected: string;
  readonly hint: string;
  readonly notes: readonly string[];
}
