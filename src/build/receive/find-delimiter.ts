import { parse } from "csv-parse/sync";

/** Delimiters that are looked for, the ones that never stand inside a number first. */
export const delimiters: readonly string[] = ["\t", ";", "|", ",", "spaces"];

/** Lines that decide. */
const linesRead = 60;

/** How well one delimiter splits some lines. */
export interface DelimiterFit {
  readonly delimiter: string;
  /** Fields of the most lines. */
  readonly fields: number;
  /** Share of the lines that have that many fields. */
  readonly share: number;
}

/**
 * How well each delimiter splits the lines of a table, best first: all lines alike before most alike, then the order of
 * `delimiters`. Empty where none splits a line.
 *
 * @param lines lines of the table; blank ones do not count
 */
export function fitDelimiters(lines: readonly string[]): readonly DelimiterFit[] {
  const counted = lines.filter((line) => line.trim() !== "").slice(0, linesRead);
  return delimiters
    .map((delimiter) => fitOf(delimiter, counted))
    .filter(({ fields, share }) => fields > 1 && share > 0)
    .sort((a, b) => b.share - a.share || delimiters.indexOf(a.delimiter) - delimiters.indexOf(b.delimiter));
}

function fitOf(delimiter: string, lines: readonly string[]): DelimiterFit {
  const counts = lines.map((line) => splitLine(line, delimiter).length);
  const tally = new Map<number, number>();
  for (const count of counts) tally.set(count, (tally.get(count) ?? 0) + 1);
  let [fields, most] = [0, 0];
  for (const [count, times] of tally)
    if (times > most || (times === most && count > fields)) [fields, most] = [count, times];
  return { delimiter, fields, share: lines.length === 0 ? 0 : most / lines.length };
}

/** The delimiter that splits all of these lines alike; undefined where none does. */
export function findDelimiter(lines: readonly string[]): string | undefined {
  const [best] = fitDelimiters(lines);
  return best !== undefined && best.share === 1 ? best.delimiter : undefined;
}

/** The fields of one line, trimmed. */
export function splitLine(line: string, delimiter: string): readonly string[] {
  if (delimiter === "spaces") return line.match(/\S+/gu) ?? [];
  if (!line.includes('"')) return line.split(delimiter).map((field) => field.trim());
  const options = { delimiter, relax_quotes: true, relax_column_count: true } as const;
  try {
    return (parse(line, options) as string[][])[0]?.map((field) => field.trim()) ?? [];
  } catch {
    return line.split(delimiter).map((field) => field.trim());
  }
}

/** A delimiter as a message names it. */
export function delimiterName(delimiter: string): string {
  return delimiter === "\t" ? "tab" : delimiter === "spaces" ? "runs of spaces" : `"${delimiter}"`;
}
