import type { Place, Problem, ProblemCode } from "./problem.js";
import { compareProblems } from "./problem.js";
import type { Facts } from "./problem-wording.js";
import { makeProblem } from "./problem-wording.js";

/** Problems of one code in one file that are kept; the number of the others is noted on the last one kept. */
export const problemsPerCode = 20;

/** Of these, problems that found one and the same text: a key misspelt in every row is one mistake. */
const problemsPerText = 3;

export interface ReadRowsOptions {
  /**
   * Problems of one code in one file that are kept; default 20, of which three that found the same text. The others are
   * counted.
   */
  readonly problemsPerCode?: number;
}

/**
 * Collects the problems of one reading. Of each code and file only the first `limit` are kept (default 20, of which three
 * that found the same text), so that one wrong column does not bury the rest; the last kept one says how many more there
 * are.
 */
export class ProblemCollector {
  readonly #groups = new Map<string, { readonly kept: Problem[]; more: number }>();
  readonly #limit: number;
  readonly #limitOfText: number;

  constructor(limit?: number) {
    const most = limit ?? problemsPerCode;
    if (!(most >= 1)) throw new RangeError(`the limit is ${most}; at least one problem a code must be kept`);
    this.#limit = most;
    this.#limitOfText = limit === undefined ? problemsPerText : most;
  }

  add(code: ProblemCode, place: Place, facts: Facts = {}): void {
    const group = this.#group(code, place.file);
    if (this.#hasRoom(group.kept, facts.found)) group.kept.push(makeProblem(code, place, facts));
    else group.more += 1;
  }

  addAll(problems: readonly Problem[]): void {
    for (const problem of problems) {
      const group = this.#group(problem.code, problem.file);
      if (this.#hasRoom(group.kept, problem.found)) group.kept.push(problem);
      else group.more += 1;
    }
  }

  /** Whether anything that makes the archive unusable was collected. */
  get hasErrors(): boolean {
    return [...this.#groups.keys()].some((key) => key.startsWith("E_"));
  }

  /** All kept problems, sorted by file, line, column and code. */
  list(): readonly Problem[] {
    const problems = [...this.#groups.values()].flatMap(({ kept, more }) =>
      kept.map((problem, i) =>
        more > 0 && i === kept.length - 1
          ? { ...problem, notes: [...problem.notes, `${more} more of ${problem.code} in this file`] }
          : problem,
      ),
    );
    return problems.sort(compareProblems);
  }

  #hasRoom(kept: readonly Problem[], found = ""): boolean {
    if (kept.length >= this.#limit) return false;
    return found === "" || kept.filter((problem) => problem.found === found).length < this.#limitOfText;
  }

  #group(code: ProblemCode, file: string): { readonly kept: Problem[]; more: number } {
    const key = `${code} ${file}`;
    const known = this.#groups.get(key);
    if (known !== undefined) return known;
    const group = { kept: [], more: 0 };
    this.#groups.set(key, group);
    return group;
  }
}
