import type { ColumnLook } from "./column-shape.js";
import type { Proposal } from "./proposal.js";

/** How a columns file picks a column: by its name where that is its own, else by its number. */
export function pickOf(columns: readonly ColumnLook[], column: ColumnLook): Readonly<Record<string, unknown>> {
  const isOwn = column.name !== "" && columns.filter(({ name }) => name === column.name).length === 1;
  return isOwn ? { column: column.name } : { column_number: column.position + 1 };
}

/** Lists the columns that nothing is taken from. */
export function proposeIgnored(
  columns: readonly ColumnLook[],
  used: ReadonlySet<ColumnLook>,
  proposal: Proposal,
): void {
  const left = columns.filter((column) => !used.has(column));
  const named = [...new Set(left.flatMap(({ name }) => (name === "" ? [] : [name])))];
  const numbered = left.flatMap(({ name, isEmpty, position }) => (name === "" && !isEmpty ? [position + 1] : []));
  const reason = "nothing in a record has this meaning; compare with the list above";
  if (named.length > 0) proposal.add("ignore", named, "likely", reason);
  if (numbered.length > 0) proposal.add("ignore_numbers", numbered, "likely", reason);
}
