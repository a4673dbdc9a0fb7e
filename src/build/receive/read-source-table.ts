import { parse } from "csv-parse/sync";
import { checkQuotes } from "../../records/csv-quotes.js";
import { ProblemCollector } from "../../records/problem-collector.js";
import type { SourceText } from "../../records/source-text.js";
import { lineCount, lineText, placeOfLine, startOf } from "../../records/source-text.js";
import type { Layout } from "./columns.js";
import { findDelimiter } from "./find-delimiter.js";
import type { LeftOut } from "./left-out.js";
import type { ReceiptProblems } from "./problem.js";
import type { SourceRows } from "./source-table.js";
import { SourceTable, fieldPlace } from "./source-table.js";

/** A record of the file: its fields without blanks around them, and its lines. */
interface RawRow {
  readonly cells: readonly string[];
  readonly firstLine: number;
  readonly lastLine: number;
}

/**
 * Splits a file into rows as the layout says, of whatever length. Undefined, with problems, where that cannot be done.
 */
export function readSourceTable(
  source: SourceText,
  layout: Layout,
  problems: ReceiptProblems,
): SourceTable | undefined {
  const first = layout.linesBefore + 1;
  const end = endOfTable(source, layout);
  if (first > end) {
    problems.add("E_TABLE_ABSENT", startOf(source.file), {
      found: `line after the ${layout.linesBefore} before the table`,
    });
    return undefined;
  }
  const delimiter = layout.delimiter ?? seenDelimiter(source, layout, first, end);
  if (delimiter === undefined) {
    problems.add("E_DELIMITER_UNSEEN", placeOfLine(source, first));
    return undefined;
  }
  const raw = rawRows(source, delimiter, first, end, problems);
  if (raw === undefined) return undefined;
  const table = tableOf(source, delimiter, layout, raw, end);
  if (table.length === 0) {
    problems.add("E_TABLE_ABSENT", placeOfLine(source, Math.min(first, lineCount(source))), {
      found: "row of readings",
    });
    return undefined;
  }
  return table;
}

/** The last line that can belong to the table. */
function endOfTable(source: SourceText, layout: Layout): number {
  const lines = lineCount(source);
  if (layout.stopsAt === undefined) return lines;
  for (let line = layout.linesBefore + (layout.hasHeader ? 2 : 1); line <= lines; line += 1) {
    if (lineText(source, line).trimStart().startsWith(layout.stopsAt)) return line - 1;
  }
  return lines;
}

function isComment(text: string, layout: Layout): boolean {
  return layout.comment !== undefined && text.trimStart().startsWith(layout.comment);
}

function seenDelimiter(source: SourceText, layout: Layout, first: number, end: number): string | undefined {
  const lines: string[] = [];
  for (let line = first; line <= end && lines.length < 100; line += 1) {
    const text = lineText(source, line);
    if (text.trim() !== "" && !isComment(text, layout)) lines.push(text);
  }
  // Lines after the header may state units of measure in fewer fields; they decide nothing.
  const counted = layout.hasHeader ? [...lines.slice(0, 1), ...lines.slice(1 + layout.linesAfterHeader)] : lines;
  // A delimiter may end every row and not the header.
  return findDelimiter(counted, layout.hasHeader) ?? findDelimiter(counted.map(withoutLastDelimiter), layout.hasHeader);
}

function withoutLastDelimiter(line: string): string {
  const text = line.trim();
  return /[;,|]$/u.test(text) ? text.slice(0, -1) : text;
}

function rawRows(
  source: SourceText,
  delimiter: string,
  first: number,
  end: number,
  problems: ReceiptProblems,
): readonly RawRow[] | undefined {
  if (delimiter === "spaces") {
    return Array.from({ length: end - first + 1 }, (_, i) => {
      const line = first + i;
      return { cells: lineText(source, line).match(/\S+/gu) ?? [""], firstLine: line, lastLine: line };
    });
  }
  const from = source.lineStarts[first - 1]!;
  const to = source.lineStarts[end] ?? source.text.length;
  const part: SourceText = to < source.text.length ? { ...source, text: source.text.slice(0, to) } : source;
  if (hasQuoteProblems(part, delimiter, from, problems)) return undefined;
  const text = part.text.slice(from);
  const withLines = text.includes('"');
  const options = { delimiter, relax_column_count: true, relax_quotes: true, record_delimiter: "\n", info: withLines } as const; // prettier-ignore
  const parsed: unknown = parse(text, options);
  const trimmed = (cells: readonly string[]): readonly string[] => cells.map((cell) => cell.trim());
  if (!withLines) {
    return (parsed as string[][]).map((cells, i) => ({
      cells: trimmed(cells),
      firstLine: first + i,
      lastLine: first + i,
    }));
  }
  const rows = parsed as { record: string[]; info: { lines: number } }[];
  return rows.map(({ record, info }, i) => ({
    cells: trimmed(record),
    firstLine: i === 0 ? first : first + rows[i - 1]!.info.lines,
    lastLine: first + info.lines - 1,
  }));
}

/** A quote inside an unquoted field stands for itself, as in a column of inches; every other misplaced one is refused. */
function hasQuoteProblems(part: SourceText, delimiter: string, from: number, problems: ReceiptProblems): boolean {
  const quotes = new ProblemCollector(Number.MAX_SAFE_INTEGER); // a harmless quote in every row must not hide a real one
  checkQuotes(part, quotes, delimiter, from);
  const real = quotes.list().filter(({ found }) => found !== "inside an unquoted field");
  for (const problem of real) problems.addProblem(problem);
  return real.length > 0;
}

function tableOf(
  source: SourceText,
  delimiter: string,
  layout: Layout,
  raw: readonly RawRow[],
  end: number,
): SourceTable {
  const leftOut: LeftOut[] = [];
  const leave = (firstLine: number, lastLine: number, reason: string): void => {
    if (lastLine >= firstLine) leftOut.push({ firstLine, lastLine, reason });
  };
  leave(1, layout.linesBefore, "before the table");
  leave(end + 1, lineCount(source), `after the table, which \`${layout.stopsAt}\` ends`);
  const kept: RawRow[] = [];
  const below: RawRow[] = [];
  let head: RawRow | undefined;
  for (const row of raw) {
    const afterHead = (head?.lastLine ?? layout.linesBefore) + layout.linesAfterHeader;
    if (row.cells.every((cell) => cell === "")) {
      leave(row.firstLine, row.lastLine, "blank");
    } else if (isComment(row.cells[0]!, layout)) {
      leave(row.firstLine, row.lastLine, `comment, starts with \`${layout.comment}\``);
    } else if (layout.hasHeader && head === undefined) {
      head = row;
    } else if (row.firstLine <= afterHead) {
      below.push(row);
    } else {
      kept.push(row);
    }
  }
  for (const row of below) leave(row.firstLine, row.lastLine, "between the header and the rows");
  const width = head === undefined ? mostCommonLength(kept) : widthOf(head.cells);
  const header = head?.cells.slice(0, width) ?? null;
  const headerLine = (head ?? kept[0])?.firstLine ?? 1;
  return new SourceTable(
    source,
    delimiter,
    { header, headerLine, belowHeader: rowsOf(below), width },
    rowsOf(kept),
    leftOut,
  );
}

/** The number of fields that most rows have, the larger of two that are as common. */
function mostCommonLength(rows: readonly RawRow[]): number {
  const times = new Map<number, number>();
  for (const { cells } of rows) times.set(cells.length, (times.get(cells.length) ?? 0) + 1);
  return [...times].sort((a, b) => b[1] - a[1] || b[0] - a[0])[0]?.[0] ?? 0;
}

/** The number of fields without the empty ones at the end. */
function widthOf(cells: readonly string[]): number {
  return cells.findLastIndex((cell) => cell !== "") + 1;
}

function rowsOf(kept: readonly RawRow[]): SourceRows {
  return {
    cells: kept.map((row) => row.cells),
    firstLine: Int32Array.from(kept, (row) => row.firstLine),
    lastLine: Int32Array.from(kept, (row) => row.lastLine),
  };
}

/**
 * Reports rows of a wrong length. Empty cells beyond the last column, as a delimiter at the end of every line leaves
 * them, are none.
 */
export function checkLengths(table: SourceTable, problems: ReceiptProblems): void {
  const { source, delimiter, width } = table;
  table.rows.cells.forEach((cells, row) => {
    const facts = { found: cells.length === 1 ? "1 field" : `${cells.length} fields`, expected: String(width) };
    if (cells.length < width) {
      const line = table.lastLine(row);
      const place = { file: source.file, line, column: lineText(source, line).length + 1, length: 1 };
      problems.addRecords("E_ROW_SHORT", place, facts);
    } else if (widthOf(cells) > width) {
      problems.addRecords("E_ROW_LONG", fieldPlace(source, delimiter, table.firstLine(row), width), facts);
    }
  });
}
