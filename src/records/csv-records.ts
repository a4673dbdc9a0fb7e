import { parse } from "csv-parse/sync";
import type { SourceText } from "./source-text.js";

/** The records of a table in file order, the header first, with the lines they stand on. */
export interface CsvRecords {
  readonly records: readonly (readonly string[])[];
  /** 1-based first and last line of each record; they differ where a quoted field holds a line end. */
  readonly firstLine: Int32Array;
  readonly lastLine: Int32Array;
}

/**
 * The records of comma-separated text (RFC 4180), by csv-parse: no trimming, no casting, rows of any length, blank lines
 * as records of one empty field.
 *
 * @param end offset at which reading stops; default the whole text
 * @param withLines take line numbers from the parser; by default only where a quote could hold a line end, since one
 *   record is one line otherwise (three times as fast)
 */
export function parseRecords(
  source: SourceText,
  end = source.text.length,
  withLines = source.text.includes('"'),
): CsvRecords {
  let last = end;
  while (last > 1 && source.text[last - 1] === "\n" && source.text[last - 2] === "\n") last -= 1; // blank lines at the end
  const text = last < source.text.length ? source.text.slice(0, last) : source.text;
  const options = { relax_column_count: true, relax_quotes: true, record_delimiter: "\n", info: withLines } as const;
  const parsed: unknown = parse(text, options);
  if (!withLines) {
    const records = parsed as string[][];
    const lines = Int32Array.from(records, (_, i) => i + 1);
    return { records, firstLine: lines, lastLine: lines };
  }
  const rows = parsed as { record: string[]; info: { lines: number } }[];
  const lastLine = Int32Array.from(rows, (row) => row.info.lines);
  return {
    records: rows.map((row) => row.record),
    firstLine: Int32Array.from(rows, (_, i) => (i === 0 ? 1 : lastLine[i - 1]! + 1)),
    lastLine,
  };
}
