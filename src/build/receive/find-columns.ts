import { nearestName } from "../../records/nearest.js";
import type { ColumnPick, ColumnsFile } from "./columns.js";
import type { ReceiptProblems } from "./problem.js";
import type { SourceTable } from "./source-table.js";
import { unitInHeader, unitOfWord } from "./unit-words.js";

/** Finds the columns of one file that the columns file asks for. */
export interface ColumnFinder {
  /** Position of a column from 0; undefined, with a problem, where it is not there. */
  readonly positionOf: (pick: ColumnPick) => number | undefined;
}

/** A finder for one file; what it is asked for counts as used. */
export function columnFinder(table: SourceTable, columns: ColumnsFile, problems: ReceiptProblems): ColumnFinder {
  const names = table.header ?? [];
  return {
    positionOf: (pick) => {
      const note = `${table.name}, line ${table.headerLine}: ${names.length === 0 ? `${table.width} columns and no header` : names.join(" | ")}`;
      if (pick.by === "number") {
        if (pick.number <= table.width) return pick.number - 1;
        const facts = { found: `number ${pick.number}`, expected: `1 to ${table.width}`, notes: [note] };
        problems.add("E_COLUMN_ABSENT", pick.place, facts);
        return undefined;
      }
      const positions = names.flatMap((name, i) => (name === pick.name.trim() ? [i] : []));
      if (positions.length === 1) return positions[0];
      if (positions.length === 0) {
        const known = names.filter((name) => name !== "");
        const notes = columns.layout.hasHeader ? [note] : [note, "the columns file says `header: false`"];
        problems.add("E_COLUMN_ABSENT", pick.place, { found: pick.name, names: known, notes });
      } else {
        const facts = { found: pick.name, expected: String(positions.length), notes: [note] };
        problems.add("E_COLUMN_AMBIGUOUS", pick.place, facts);
      }
      return undefined;
    },
  };
}

/** Every column that the columns file names, used or only read for its unit of measure. */
export function picksOf(columns: ColumnsFile): readonly ColumnPick[] {
  return columns.fields.flatMap(({ value, reading }) => [
    ...(value.from === "column" ? [value.column] : []),
    ...(reading.as === "measure" && reading.unitColumn !== null ? [reading.unitColumn] : []),
  ]);
}

/**
 * Reports every column that is neither used nor ignored and holds anything, so that nothing is dropped without a word.
 *
 * @param used positions of the columns that the columns file uses
 */
export function checkUnlisted(
  table: SourceTable,
  columns: ColumnsFile,
  used: ReadonlySet<number>,
  problems: ReceiptProblems,
): void {
  const ignored = new Set(columns.ignore.map((name) => name.trim()));
  const meant = namesMeant(table, columns);
  for (let position = 0; position < table.width; position += 1) {
    const name = table.header?.[position] ?? "";
    if (used.has(position) || columns.ignoreNumbers.includes(position + 1)) continue;
    if (name !== "" && (ignored.has(name) || meant.has(name))) continue;
    if (name === "" && table.rows.cells.every((cells) => (cells[position] ?? "") === "")) continue;
    problems.add("E_COLUMN_UNLISTED", table.headerPlace(position), {
      found: table.columnName(position),
      expected: name === "" ? "`ignore_numbers`" : "`ignore`",
    });
  }
}

/** Names in the file that the columns file names, or was meant to name where it is misspelt: these are reported as such. */
function namesMeant(table: SourceTable, columns: ColumnsFile): ReadonlySet<string> {
  const names = (table.header ?? []).filter((name) => name !== "");
  const meant = picksOf(columns).flatMap((pick) => {
    if (pick.by === "number") return [];
    return names.includes(pick.name.trim()) ? [pick.name.trim()] : (nearestName(pick.name, names) ?? []);
  });
  return new Set(meant);
}

/**
 * Reports a column, taken by name, for which the file states another unit of measure than the columns file: in its name,
 * or in a line between the header and the rows.
 */
export function checkHeaderUnits(table: SourceTable, columns: ColumnsFile, problems: ReceiptProblems): void {
  for (const { value, reading } of columns.fields) {
    if (value.from !== "column" || value.column.by !== "name" || reading.as !== "measure") continue;
    const position = table.header?.indexOf(value.column.name.trim()) ?? -1;
    if (position === -1) continue;
    const expected = reading.unit;
    const stated = unitInHeader(table.header![position]!);
    if (stated !== undefined && stated !== expected) {
      problems.add("E_UNIT_DIFFERS", table.headerPlace(position), { found: stated, expected });
    }
    table.belowHeader.cells.forEach((cells, i) => {
      const found = unitOfWord(cells[position] ?? "");
      if (found === undefined || found === expected) return;
      problems.add("E_UNIT_DIFFERS", table.placeBelowHeader(i, position), { found, expected });
    });
  }
}
