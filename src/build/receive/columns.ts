import type { Place } from "../../records/problem.js";
import type { SourceText } from "../../records/source-text.js";
import type { FileNamePattern } from "./file-name-pattern.js";

/** What a columns file describes: which table of a session the files become. */
export type TableKind = "force" | "presses" | "timings";

/** A column of the source, by its name in the header or its number from 1. */
export type ColumnPick = { readonly place: Place } & (
  { readonly by: "name"; readonly name: string } | { readonly by: "number"; readonly number: number }
);

/** Where a value comes from. */
export type ValueFrom =
  | { readonly from: "is"; readonly text: string }
  | { readonly from: "column"; readonly column: ColumnPick }
  | { readonly from: "file_name"; readonly pattern: FileNamePattern }
  /** Counted in the order of files and rows. */
  | { readonly from: "order" }
  /** Both strokes stand in one stream and are told apart by its turning points. */
  | { readonly from: "stream" };

/** How the texts of a value are read. */
export type ValueReading =
  /** A text, translated where `words` has it, else taken as it stands. */
  | { readonly as: "text"; readonly words: ReadonlyMap<string, string>; readonly isKey: boolean }
  /** One of a few; `words` has every text that may stand there. Null: rows with this text are left out. */
  | { readonly as: "choice"; readonly words: ReadonlyMap<string, string | null> }
  /** A whole number; `countedFrom` 0 adds one. */
  | { readonly as: "whole"; readonly countedFrom: number; readonly mayBeEmpty: boolean }
  /** A measured number in `unit`, the suffix of the archive's column; `reversed` turns its sign. */
  | {
      readonly as: "measure";
      readonly unit: string;
      readonly unitColumn: ColumnPick | null;
      readonly reversed: boolean;
    };

/** One value of the table: what it is called, where it comes from, how it is read. */
export interface FieldPlan {
  /** The name in the columns file: `displacement`, `key`, `contact_frame`. */
  readonly name: string;
  readonly value: ValueFrom;
  readonly reading: ValueReading;
  /** The value's mapping in the columns file. */
  readonly place: Place;
}

export type Encoding = "utf-8" | "utf-16" | "windows-1252";

/** How the text of the files is laid out. */
export interface Layout {
  /** Absent: UTF-8, or what a byte order mark says. */
  readonly encoding?: Encoding;
  /** One to three characters; `spaces` for runs of blanks. Absent: seen from the file. */
  readonly delimiter?: string;
  readonly decimal: "." | ",";
  /** What groups the digits before the decimal sign by three; empty where nothing does. */
  readonly grouping: string;
  /** Lines before the header, or before the first row where there is none. */
  readonly linesBefore: number;
  readonly hasHeader: boolean;
  readonly linesAfterHeader: number;
  /** Rows that start with this text are comments. */
  readonly comment?: string;
  /** The first line after the header that starts with this text ends the table. */
  readonly stopsAt?: string;
}

/** Lines left out by hand. */
export interface LinesLeftOut {
  /** End of the file's path; null where one file alone is received. */
  readonly file: string | null;
  readonly fromLine: number;
  readonly toLine: number;
  readonly reason: string;
  readonly place: Place;
}

/** A columns file, read and checked: plain data. */
export interface ColumnsFile {
  readonly source: SourceText;
  readonly kind: TableKind;
  readonly layout: Layout;
  /** In the order of the table's own columns. */
  readonly fields: readonly FieldPlan[];
  readonly ignore: readonly string[];
  readonly ignoreNumbers: readonly number[];
  readonly leaveOut: readonly LinesLeftOut[];
}

/** The plan of one value; undefined where the columns file has none. */
export function fieldPlan(columns: Pick<ColumnsFile, "fields">, name: string): FieldPlan | undefined {
  return columns.fields.find((field) => field.name === name);
}

/** Names as the archive has them: the table's file, and the values in the order of its columns. */
export const tables: Readonly<
  Record<TableKind, { readonly file: string; readonly fields: readonly string[]; readonly optional: readonly string[] }>
> = {
  force: {
    file: "force.csv",
    fields: ["key", "cycle", "stroke", "displacement", "force", "contact"],
    optional: ["contact"],
  },
  presses: {
    file: "presses.csv",
    fields: [
      "connection",
      "key",
      "clip",
      "press",
      "reader",
      "contact_frame",
      "mark_frame",
      "response_frame",
      "outcome",
      "excluded",
    ],
    optional: ["mark_frame", "excluded"],
  },
  timings: {
    file: "timings.csv",
    fields: ["connection", "press", "start", "arrival", "excluded"],
    optional: ["excluded"],
  },
};
