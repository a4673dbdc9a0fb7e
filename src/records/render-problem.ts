import type { Place, Problem } from "./problem.js";
import { problemMessage } from "./problem-wording.js";

export interface RenderProblemOptions {
  /** Path to the archive as the reader of the message would type it, such as `data`; put before the file. */
  readonly prefix?: string;
  /** Lines shown before the offending one; default 1. */
  readonly linesBefore?: number;
}

/** What a printed problem says, whichever stage found it: its place, code and sentence, its remedy and notes. */
export interface PrintedProblem extends Place {
  readonly code: string;
  readonly message: string;
  readonly hint: string;
  readonly notes: readonly string[];
}

/** `renderPrintedProblem` for a problem of an archive. */
export function renderProblem(
  problem: Problem,
  sourceLines: readonly string[] | undefined,
  options: RenderProblemOptions = {},
): string {
  return renderPrintedProblem({ ...problem, message: problemMessage(problem) }, sourceLines, options);
}

/**
 * A problem as it is printed: place, code and sentence, the lines around it with a mark under the offending text, the
 * remedy and the notes. Control characters are shown as pictures, so that a file cannot steer the terminal.
 *
 * @param sourceLines the file's lines without line ends; undefined or empty where it cannot be shown (no frame then)
 */
export function renderPrintedProblem(
  problem: PrintedProblem,
  sourceLines: readonly string[] | undefined,
  options: RenderProblemOptions = {},
): string {
  const { prefix = "", linesBefore = 1 } = options;
  const path = prefix === "" ? problem.file : `${prefix.replace(/\/+$/, "")}/${problem.file}`;
  return [
    `${visible(path)}:${problem.line}:${problem.column} ${problem.code}  ${visible(problem.message)}`,
    ...codeFrame(problem, sourceLines ?? [], linesBefore),
    `  hint: ${visible(problem.hint)}`,
    ...problem.notes.map((note) => `  note: ${visible(note)}`),
  ].join("\n");
}

const widest = 96;

/** The offending line under those before it, with a mark of the problem's length below; long lines are cut around it. */
function codeFrame(problem: Place, lines: readonly string[], linesBefore: number): readonly string[] {
  const offending = lines[problem.line - 1];
  if (offending === undefined) return [];
  const first = Math.max(1, problem.line - linesBefore);
  const gutter = String(problem.line).length;
  const start = problem.column + Math.min(problem.length, 24) > widest ? problem.column - 1 - widest / 2 : 0;
  const cut = (text: string): string => {
    const part = visible(text.slice(start, start + widest));
    return `${start > 0 && text.length > 0 ? "…" : ""}${part}${text.length > start + widest ? "…" : ""}`;
  };
  const column = problem.column - 1 - start + (start > 0 ? 1 : 0);
  const length = Math.max(1, Math.min(problem.length, offending.length - problem.column + 1, widest - column));
  const shown = lines.slice(first - 1, problem.line);
  return [
    ...shown.map((text, i) => `  ${String(first + i).padStart(gutter)} | ${cut(text)}`.trimEnd()),
    `  ${" ".repeat(gutter)} | ${" ".repeat(column)}${"^".repeat(length)}`,
  ];
}

/** Control and direction characters as one visible character each, so that columns keep their places. */
function visible(text: string): string {
  return text.replace(/[\p{Cc}\p{Zl}\p{Zp}\p{Bidi_Control}\ufeff]/gu, (character) => {
    const code = character.charCodeAt(0);
    return code < 0x20 ? String.fromCharCode(0x2400 + code) : code === 0x7f ? "\u2421" : "\ufffd";
  });
}
