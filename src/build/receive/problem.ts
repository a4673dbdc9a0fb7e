import type { Place, Problem, ProblemCode } from "../../records/problem.js";
import { compareText } from "../../records/problem.js";
import type { Facts } from "../../records/problem-wording.js";
import { makeProblem, problemMessage } from "../../records/problem-wording.js";
import { nearestName } from "../../records/nearest.js";
import { receiptWordings } from "./wording.js";
import type { ReceiptCode } from "./wording.js";

/** Something wrong in a columns file or in a file to be received, as data with its sentence. */
export interface ReceiptProblem extends Place {
  /** A code of receipt, or one of the records where the same thing would be wrong in a record. */
  readonly code: ReceiptCode | ProblemCode;
  readonly severity: "error" | "warning";
  readonly message: string;
  readonly found: string;
  readonly expected: string;
  readonly hint: string;
  readonly notes: readonly string[];
}

/** Problems of one code in one file that are kept; the number of the others is noted on the last one kept. */
const problemsPerCode = 5;

/**
 * Collects the problems of one receipt. Of each code and file the first five are kept; the last of them says how many
 * more there are, so that one wrong column does not bury the rest.
 */
export class ReceiptProblems {
  readonly #groups = new Map<string, { readonly kept: ReceiptProblem[]; more: number }>();

  /** A problem that only receipt knows. */
  add(code: ReceiptCode, place: Place, facts: Facts = {}): void {
    const { found = "", names = [], notes = [] } = facts;
    const expected = facts.expected ?? (names.length === 0 ? "none" : names.join(", "));
    const near = facts.near ?? nearestName(found, names);
    const { message, hint } = receiptWordings[code];
    this.#keep({
      code,
      severity: severityOf(code),
      ...place,
      length: Math.max(1, place.length),
      message: fill(message, found, expected),
      found,
      expected,
      hint: near === undefined ? (facts.hint ?? fill(hint, found, expected)) : `did you mean \`${near}\`?`,
      notes,
    });
  }

  /** A problem that a record would have as well, in the records' own words. */
  addRecords(code: ProblemCode, place: Place, facts: Facts = {}): void {
    this.addProblem(makeProblem(code, place, facts));
  }

  addProblem(problem: Problem): void {
    this.#keep({ ...problem, message: problemMessage(problem) });
  }

  /** Whether anything that keeps the files from being received was collected. */
  get hasErrors(): boolean {
    return [...this.#groups.keys()].some((key) => key.startsWith("E_"));
  }

  /** All kept problems, sorted by file, line, column and code. */
  list(): readonly ReceiptProblem[] {
    const problems = [...this.#groups.values()].flatMap(({ kept, more }) =>
      kept.map((problem, i) =>
        more > 0 && i === kept.length - 1
          ? { ...problem, notes: [...problem.notes, `${more} more of ${problem.code} in this file`] }
          : problem,
      ),
    );
    return problems.sort(
      (a, b) => compareText(a.file, b.file) || a.line - b.line || a.column - b.column || compareText(a.code, b.code),
    );
  }

  #keep(problem: ReceiptProblem): void {
    const key = `${problem.code} ${problem.file}`;
    const group = this.#groups.get(key);
    if (group === undefined) this.#groups.set(key, { kept: [problem], more: 0 });
    else if (group.kept.length < problemsPerCode) group.kept.push(problem);
    else group.more += 1;
  }
}

function severityOf(code: string): ReceiptProblem["severity"] {
  return code.startsWith("E_") ? "error" : "warning";
}

/** Puts both texts in their places in one pass, so that a text that looks like a place is left alone. */
function fill(template: string, found: string, expected: string): string {
  return template.replace(/\{(found|expected)\}/g, (_, name) => (name === "found" ? found : expected));
}
