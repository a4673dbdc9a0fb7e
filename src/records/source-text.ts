import type { Place } from "./problem.js";

/** A text file of the archive: decoded, without byte order mark, every line end written as a line feed. */
export interface SourceText {
  /** Path relative to the archive's root, with forward slashes. */
  readonly file: string;
  readonly text: string;
  /** Offset of the first character of each line. */
  readonly lineStarts: readonly number[];
}

/** Takes a text as the content of a file; line ends of all kinds become line feeds, so lines keep their numbers. */
export function sourceText(file: string, content: string): SourceText {
  const text = content.includes("\r") ? content.replace(/\r\n?/g, "\n") : content;
  const lineStarts = [0];
  for (let at = text.indexOf("\n"); at !== -1; at = text.indexOf("\n", at + 1)) lineStarts.push(at + 1);
  return { file, text, lineStarts };
}

/** The number of lines that hold something: a line feed at the end of the file starts no further line. */
export function lineCount(source: SourceText): number {
  const lines = source.lineStarts.length;
  return lines > 1 && source.lineStarts[lines - 1] === source.text.length ? lines - 1 : lines;
}

/** The text of one line, 1-based, without its line end. Empty beyond the end. */
export function lineText(source: SourceText, line: number): string {
  const start = source.lineStarts[line - 1];
  if (start === undefined) return "";
  const next = source.lineStarts[line];
  return source.text.slice(start, next === undefined ? undefined : next - 1);
}

/**
 * The place of the text from `start` to `end` (offsets, `end` exclusive), by bisection of the line starts. Columns count
 * UTF-16 units, as editors do. A text over several lines is cut at the end of its first line; length is at least 1.
 */
export function placeOf(source: SourceText, start: number, end = start + 1): Place {
  const { lineStarts } = source;
  let [low, high] = [0, lineStarts.length - 1];
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (lineStarts[middle]! <= start) low = middle;
    else high = middle - 1;
  }
  const lineEnd = (lineStarts[low + 1] ?? source.text.length + 1) - 1;
  return {
    file: source.file,
    line: low + 1,
    column: start - lineStarts[low]! + 1,
    length: Math.max(1, Math.min(end, lineEnd) - start),
  };
}

/** The place of a whole line: from its first character that is not a space. */
export function placeOfLine(source: SourceText, line: number): Place {
  const text = lineText(source, line);
  const trimmed = text.trim();
  return {
    file: source.file,
    line,
    column: trimmed === "" ? 1 : text.indexOf(trimmed) + 1,
    length: Math.max(1, trimmed.length),
  };
}

/** The start of a file, for problems that concern the whole of it. */
export function startOf(file: string): Place {
  return { file, line: 1, column: 1, length: 1 };
}
