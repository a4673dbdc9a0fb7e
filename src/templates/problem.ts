import type { TemplateProblem } from "./outcome.js";
import type { Place } from "./text-lines.js";

/** What a problem says, without where it stands; made by the `wording.ts` of each stage alone. */
export interface Wording {
  readonly code: string;
  readonly message: string;
  /** The remedy, as a clause in the imperative. */
  readonly hint: string;
}

/** Puts a wording at a place of a template. `length` is the number of offending characters, at least 1. */
export function problemAt(file: string, place: Place, length: number, wording: Wording): TemplateProblem {
  const { code, message, hint } = wording;
  return { code, severity: "error", file, line: place.line, column: place.column, length: Math.max(1, length), message, hint };
}

/** Problems in the order of their places; equal ones once. */
export function sortProblems(problems: readonly TemplateProblem[]): readonly TemplateProblem[] {
  const seen = new Set<string>();
  return problems
    .filter((problem) => {
      const key = `${problem.line}:${problem.column}:${problem.code}:${problem.message}`;
      if (seen.has(key)) return false;
      seen.add(key);
      return true;
    })
    .sort((a, b) => a.line - b.line || a.column - b.column);
}
