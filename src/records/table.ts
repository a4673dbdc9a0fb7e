import type { EvidenceRows } from "../metrology/evidence.js";
import type { CsvRecords } from "./csv-records.js";
import { fieldRanges } from "./csv-quotes.js";
import type { Place } from "./problem.js";
import type { SourceText } from "./source-text.js";
import { lineText, placeOf, startOf } from "./source-text.js";

/** One column as read: texts and, for number columns, numbers in canonical units of measure, NaN where empty. */
export interface TableColumn {
  /** As the header writes it, such as `force_gf`. */
  readonly header: string;
  readonly position: number;
  readonly texts: readonly string[];
  readonly numbers: Float64Array;
}

/**
 * The rows of one CSV file, column by column, in file order, with the lines they stand on. Rows are counted from 0
 * without the header. Columns are asked for by their name in the schema (`force_cN`), whatever the header's variant.
 */
export class Table {
  readonly source: SourceText;
  /** Rows; rows with a problem are kept in place and marked. */
  readonly rows: number;
  /** 1 where a row has a problem that keeps its values from being used. */
  readonly broken: Uint8Array;
  /**
   * False where reading stopped before the end of the file or a row could not be read as it stands, so that nothing can
   * be said about what is missing.
   */
  readonly isComplete: boolean;
  readonly #records: CsvRecords;
  readonly #columns: ReadonlyMap<string, TableColumn>;

  constructor(
    source: SourceText,
    records: CsvRecords,
    columns: ReadonlyMap<string, TableColumn>,
    broken: Uint8Array,
    isComplete: boolean,
  ) {
    this.source = source;
    this.rows = broken.length;
    this.broken = broken;
    this.isComplete = isComplete;
    this.#records = records;
    this.#columns = columns;
  }

  get file(): string {
    return this.source.file;
  }

  texts(name: string): readonly string[] {
    return this.#column(name).texts;
  }

  /** Numbers in the schema's own unit of measure; NaN where the cell is empty. */
  numbers(name: string): Float64Array {
    return this.#column(name).numbers;
  }

  /** The column's name as the header writes it. */
  header(name: string): string {
    return this.#column(name).header;
  }

  firstLine(row: number): number {
    return this.#records.firstLine[row + 1]!;
  }

  lastLine(row: number): number {
    return this.#records.lastLine[row + 1]!;
  }

  /** The raw rows from `first` to `last` as evidence, naming the columns that were used. */
  evidence(first: number, last: number, names: readonly string[]): EvidenceRows {
    return {
      kind: "rows",
      file: this.file,
      firstLine: this.firstLine(first),
      lastLine: this.lastLine(last),
      columns: names.map((name) => this.header(name)),
    };
  }

  /** The place of one cell. */
  place(row: number, name: string): Place {
    return cellPlace(this.source, this.firstLine(row), this.#column(name).position);
  }

  /** The place of a column's name in the header. */
  headerPlace(name: string): Place {
    return cellPlace(this.source, 1, this.#column(name).position);
  }

  #column(name: string): TableColumn {
    const column = this.#columns.get(name);
    if (column === undefined) throw new TypeError(`${this.file} has no column ${name} in its schema`);
    return column;
  }
}

/** The place of a field of the record that starts on a line, by its position from 0; the line's end beyond the last. */
export function cellPlace(source: SourceText, line: number, position: number): Place {
  const offset = source.lineStarts[line - 1];
  if (offset === undefined) return startOf(source.file);
  const range = fieldRanges(source.text, offset)[position];
  return range === undefined ? endOfLine(source, line) : placeOf(source, range[0], range[1]);
}

/** Just behind the last character of a line: where something is missing. */
export function endOfLine(source: SourceText, line: number): Place {
  return { file: source.file, line, column: lineText(source, line).length + 1, length: 1 };
}
