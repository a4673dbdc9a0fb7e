import { fieldRanges } from "../../records/csv-quotes.js";
import type { Place } from "../../records/problem.js";
import type { SourceText } from "../../records/source-text.js";
import { lineText, placeOf } from "../../records/source-text.js";
import type { LeftOut } from "./left-out.js";

/** The rows of one file to be received, with the lines they stand on. */
export interface SourceRows {
  /** Fields of each row, without blanks around them. */
  readonly cells: readonly (readonly string[])[];
  readonly firstLine: Int32Array;
  readonly lastLine: Int32Array;
}

/** One file to be received, split into rows. */
export class SourceTable {
  readonly source: SourceText;
  /** Path as the user gave it. */
  readonly name: string;
  readonly delimiter: string;
  /** Names of the columns; null where the file has none. */
  readonly header: readonly string[] | null;
  readonly headerLine: number;
  /** Lines between the header and the rows, which may state units of measure. */
  readonly belowHeader: SourceRows;
  /** The number of columns. */
  readonly width: number;
  readonly rows: SourceRows;
  /** Lines that are no rows. */
  readonly leftOut: readonly LeftOut[];

  constructor(
    source: SourceText,
    delimiter: string,
    head: Pick<SourceTable, "header" | "headerLine" | "belowHeader" | "width">,
    rows: SourceRows,
    leftOut: readonly LeftOut[],
  ) {
    this.source = source;
    this.name = source.file;
    this.delimiter = delimiter;
    this.header = head.header;
    this.headerLine = head.headerLine;
    this.belowHeader = head.belowHeader;
    this.width = head.width;
    this.rows = rows;
    this.leftOut = leftOut;
  }

  get length(): number {
    return this.rows.cells.length;
  }

  firstLine(row: number): number {
    return this.rows.firstLine[row]!;
  }

  lastLine(row: number): number {
    return this.rows.lastLine[row]!;
  }

  cell(row: number, position: number): string {
    return this.rows.cells[row]![position] ?? "";
  }

  /** The table without the rows for which there is a reason to leave them out; they are left out with it. */
  without(reasonOf: (row: number) => string | undefined): SourceTable {
    const kept: number[] = [];
    const leftOut = [...this.leftOut];
    for (let row = 0; row < this.length; row += 1) {
      const reason = reasonOf(row);
      if (reason === undefined) kept.push(row);
      else leftOut.push({ firstLine: this.firstLine(row), lastLine: this.lastLine(row), reason });
    }
    if (kept.length === this.length) return this;
    const rows = {
      cells: kept.map((row) => this.rows.cells[row]!),
      firstLine: Int32Array.from(kept, (row) => this.firstLine(row)),
      lastLine: Int32Array.from(kept, (row) => this.lastLine(row)),
    };
    return new SourceTable(this.source, this.delimiter, this, rows, leftOut);
  }

  /** The place of a cell. */
  place(row: number, position: number): Place {
    return fieldPlace(this.source, this.delimiter, this.firstLine(row), position);
  }

  /** The place of a field in a line between the header and the rows. */
  placeBelowHeader(index: number, position: number): Place {
    return fieldPlace(this.source, this.delimiter, this.belowHeader.firstLine[index]!, position);
  }

  /** The place of a column's name; of the first row's cell where the file has no header. */
  headerPlace(position: number): Place {
    return fieldPlace(this.source, this.delimiter, this.headerLine, position);
  }

  /** What a message calls a column: its name in the header, or its number. */
  columnName(position: number): string {
    const name = this.header?.[position] ?? "";
    return name === "" ? `number ${position + 1}` : `\`${name}\``;
  }
}

/** The place of a field of the record that starts on a line, without the blanks around it; the line's end beyond the last. */
export function fieldPlace(source: SourceText, delimiter: string, line: number, position: number): Place {
  const offset = source.lineStarts[line - 1] ?? 0;
  const range = rangesOf(source, delimiter, line, offset)[position];
  if (range === undefined) return { file: source.file, line, column: lineText(source, line).length + 1, length: 1 };
  const [start, end] = range;
  const text = source.text.slice(start, end);
  const blanks = text.length - text.trimStart().length;
  return text.trim() === ""
    ? placeOf(source, start, end)
    : placeOf(source, start + blanks, start + blanks + text.trim().length);
}

function rangesOf(
  source: SourceText,
  delimiter: string,
  line: number,
  offset: number,
): readonly (readonly [start: number, end: number])[] {
  if (delimiter !== "spaces") return fieldRanges(source.text, offset, delimiter);
  return [...lineText(source, line).matchAll(/\S+/gu)].map((match) => [
    offset + match.index,
    offset + match.index + match[0].length,
  ]);
}
