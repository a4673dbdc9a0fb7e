import type { SourceTable } from "../source-table.js";
import type { ColumnLook } from "./column-shape.js";

/** What a proposal is made from: the first file, split by its layout, and the names of all. */
export interface GuessInput {
  readonly table: SourceTable;
  readonly columns: readonly ColumnLook[];
  /** Unit of measure that the file states for a column outside its name: below the header, or in a column beside it. */
  readonly unitOf: (column: ColumnLook) => string | undefined;
  readonly names: readonly string[];
}
