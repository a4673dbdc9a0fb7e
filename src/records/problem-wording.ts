import { nearestName } from "./nearest.js";
import type { Place, Problem, ProblemCode } from "./problem.js";
import { problemCodes } from "./problem.js";
import { fileWordings } from "./wording/files.js";
import { latencyWordings } from "./wording/latency.js";
import { relationWordings } from "./wording/relations.js";
import { tableWordings } from "./wording/tables.js";
import type { Wording } from "./wording/wording.js";
import { yamlWordings } from "./wording/yaml.js";

const wordings: Readonly<Record<ProblemCode, Wording>> = {
  ...fileWordings,
  ...yamlWordings,
  ...relationWordings,
  ...tableWordings,
  ...latencyWordings,
};

/** What a problem is about, in the words that its message and hint need. */
export interface Facts {
  /** The offending text, or what stands there. */
  readonly found?: string;
  readonly expected?: string;
  /** Valid names: the nearest one to `found`, if any is near, becomes the hint, and all of them what is expected. */
  readonly names?: readonly string[];
  /** The name that was meant, where more than edit distance tells. */
  readonly near?: string;
  /** What to do in this very case, in place of the code's general remedy; a near name still comes first. */
  readonly hint?: string;
  readonly notes?: readonly string[];
}

/** Makes a problem of a code at a place; severity follows from the code. */
export function makeProblem(code: ProblemCode, place: Place, facts: Facts = {}): Problem {
  const found = facts.found ?? "";
  const expected = facts.expected ?? listNames(facts.names ?? []);
  const near = facts.near ?? (facts.names && nearestName(found, facts.names));
  return {
    code,
    severity: code.startsWith("E_") ? "error" : "warning",
    file: place.file,
    line: place.line,
    column: place.column,
    length: Math.max(1, place.length),
    found,
    expected,
    hint: near === undefined ? (facts.hint ?? fill(wordings[code].hint, found, expected)) : `did you mean \`${near}\`?`,
    notes: facts.notes ?? [],
  };
}

/** The sentence that a problem prints: what was found and what was expected. */
export function problemMessage(problem: Problem): string {
  return fill(wordings[problem.code].message, problem.found, problem.expected);
}

/** One line of the list of all codes. */
export interface ProblemExplanation {
  readonly code: ProblemCode;
  readonly severity: Problem["severity"];
  readonly explanation: string;
  /** The remedy in general, with `{found}` and `{expected}` where a problem puts its own texts. */
  readonly hint: string;
}

/** Every code with a one-line explanation and its remedy, in the order of the stages of reading. */
export const problemCatalogue: readonly ProblemExplanation[] = problemCodes.map((code) => ({
  code,
  severity: code.startsWith("E_") ? "error" : "warning",
  explanation: wordings[code].explanation,
  hint: wordings[code].hint,
}));

/** Puts both texts in their places in one pass, so that a text that looks like a place is left alone. */
function fill(template: string, found: string, expected: string): string {
  return template.replace(/\{(found|expected)\}/g, (_, name) => (name === "found" ? found : expected));
}

/** A readable list of names; a long one is cut, saying how many it leaves out. */
function listNames(names: readonly string[]): string {
  if (names.length === 0) return "none";
  const shown = names.slice(0, 24);
  const rest = names.length - shown.length;
  return shown.join(", ") + (rest > 0 ? ` and ${rest} more` : "");
}
