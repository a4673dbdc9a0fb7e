import type { TemplateProblem } from "./outcome.js";
import { splitLines } from "./text-lines.js";

/** Characters of a long line that are shown around the offending ones. */
const windowWidth = 100;

/**
 * A problem as it is printed: place, code and message, the line with the offending characters marked below, the line
 * before it, and the remedy. Long lines are cut around the mark; tabs and wide characters keep the mark in place.
 *
 * @param source the template's text; where it is null, or has no such line, the frame is left out
 */
export function renderTemplateProblem(problem: TemplateProblem, source: string | null): string {
  const head = `${problem.file}:${problem.line}:${problem.column} ${problem.code}  ${problem.message}`;
  const frame = source === null ? [] : renderFrame(splitLines(source), problem);
  const hint = problem.hint === "" ? [] : [`  hint: ${problem.hint}`];
  return [head, ...frame, ...hint].join("\n");
}

function renderFrame(lines: readonly string[], problem: TemplateProblem): readonly string[] {
  const line = lines[problem.line - 1];
  if (line === undefined) return [];
  const digits = String(problem.line).length;
  const gutter = (label: string): string => `  ${label.padStart(digits)} |`;
  const start = Math.min(problem.column - 1, line.length);
  const end = Math.max(start + 1, Math.min(line.length, start + problem.length));
  const cut = cutLine(line, start, end);
  const before = lines[problem.line - 2];
  const lead = cut.text.slice(0, cut.start);
  const marked = cut.text.slice(cut.start, cut.end);
  return [
    ...(before === undefined ? [] : [`${gutter(String(problem.line - 1))} ${cutLine(before, 0, 1).text}`.trimEnd()]),
    `${gutter(String(problem.line))} ${cut.text}`.trimEnd(),
    `${gutter("")} ${blank(lead)}${"^".repeat(Math.max(1, displayWidth(marked)))}`,
  ];
}

/** Cuts a line to the window; never inside a surrogate pair. */
function cutLine(line: string, start: number, end: number): { text: string; start: number; end: number } {
  if (line.length <= windowWidth) return { text: line, start, end };
  let from = Math.max(0, Math.min(start - 30, line.length - windowWidth));
  let to = Math.min(line.length, from + windowWidth);
  if (isLowSurrogate(line, from)) from--;
  if (isLowSurrogate(line, to)) to++;
  const head = from > 0 ? "…" : "";
  const tail = to < line.length ? "…" : "";
  const shift = head.length - from;
  const shownEnd = Math.min(end, to) + shift;
  return { text: head + line.slice(from, to) + tail, start: start + shift, end: Math.max(shownEnd, start + shift + 1) };
}

function isLowSurrogate(text: string, index: number): boolean {
  const code = text.charCodeAt(index);
  return code >= 0xdc00 && code <= 0xdfff;
}

/** White space as wide as a text: tabs stay tabs. */
function blank(text: string): string {
  return [...text].map((char) => (char === "\t" ? "\t" : " ".repeat(charWidth(char)))).join("");
}

function displayWidth(text: string): number {
  return [...text].reduce((width, char) => width + charWidth(char), 0);
}

/** Columns of a terminal that a character takes, near enough for a mark (Unicode TR 11, without its ambiguous class). */
function charWidth(char: string): number {
  if (/^[\p{Mn}\p{Me}\p{Cf}]$/u.test(char)) return 0;
  return /^[\u1100-\u115f\u2e80-\u303e\u3041-\u33ff\u3400-\u9fff\ua000-\ua4cf\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe4f\uff00-\uff60\uffe0-\uffe6]$|^\p{Emoji_Presentation}$/u.test(
    char,
  )
    ? 2
    : 1;
}
