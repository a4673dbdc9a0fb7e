import { parse } from "csv-parse/sync";

/** Delimiters that are looked for, the ones that never stand inside a number first. */
export const delimiters: readonly string[] = ["\t", ";", "|", ",", "spaces"];

/** Records that decide. */
const recordsRead = 60;

/** Share of the records that must have equally many fields; a few may be ragged, which is then said of each of them. */
const enough = 0.8;

/**
 * The delimiter that splits lines into equally many fields, at least two: the one that splits the most of them alike, of
 * several the first of `delimiters`. Where the first line is a header, it must have as many fields as the rows. Undefined
 * where none does.
 *
 * @param lines lines of the table, without comments; blank ones do not count
 */
export function findDelimiter(lines: readonly string[], hasHeader: boolean): string | undefined {
  const counted = lines.filter((line) => line.trim() !== "");
  const fits = delimiters.flatMap((delimiter) => {
    const lengths = recordsOf(counted, delimiter).map((record) => record.length);
    const rows = hasHeader && lengths.length > 1 ? lengths.slice(1) : lengths;
    const fields = mostCommon(rows);
    const share = rows.filter((length) => length === fields).length / Math.max(1, rows.length);
    const fits = fields > 1 && share >= enough && lengths.length > 0 && (!hasHeader || lengths[0] === fields);
    return fits ? [{ delimiter, share }] : [];
  });
  return fits.reduce<(typeof fits)[number] | undefined>(
    (best, each) => (best === undefined || each.share > best.share ? each : best),
    undefined,
  )?.delimiter;
}

/** The first records of some lines; a quoted field may run over several of them. */
function recordsOf(lines: readonly string[], delimiter: string): readonly (readonly string[])[] {
  const whole = lines.slice(0, recordsRead);
  if (delimiter === "spaces" || !whole.some((line) => line.includes('"'))) {
    return whole.map((line) => splitLine(line, delimiter));
  }
  const options = { delimiter, relax_quotes: true, relax_column_count: true, to: recordsRead } as const;
  try {
    return parse(lines.join("\n"), options) as string[][];
  } catch {
    return whole.map((line) => line.split(delimiter)); // a quote is never closed, which is said when the rows are read
  }
}

/** The number that occurs most often, the larger of two that are as common; 0 where there is none. */
function mostCommon(numbers: readonly number[]): number {
  const times = new Map<number, number>();
  for (const number of numbers) times.set(number, (times.get(number) ?? 0) + 1);
  return [...times].sort((a, b) => b[1] - a[1] || b[0] - a[0])[0]?.[0] ?? 0;
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
