import { Undetermined, checkValues } from "./guards.js";

/** Levels of each factor, one a value. */
export type Levels = Readonly<Record<string, readonly string[]>>;

/** The levels of one factor, checked against the number of values. */
export function levelsOf(factors: Levels, factor: string, n: number, procedure: string): readonly string[] {
  const levels = factors[factor];
  if (levels === undefined) {
    throw new RangeError(
      `${procedure} needs the factor ${factor}; it was given ${Object.keys(factors).join(", ") || "none"}`,
    );
  }
  if (levels.length !== n) throw new RangeError(`${procedure}: ${n} values but ${levels.length} levels of ${factor}`);
  return levels;
}

/** The single factor of a one-way layout. */
export function onlyFactor(factors: Levels, procedure: string): string {
  const names = Object.keys(factors);
  if (names.length !== 1) throw new RangeError(`${procedure} takes one factor, got ${names.join(", ") || "none"}`);
  return names[0]!;
}

/** Distinct levels in order of first appearance. */
export function distinct(levels: readonly string[]): readonly string[] {
  return [...new Set(levels)];
}

/** Values grouped by level, in order of first appearance. */
export function groupsOf(
  values: readonly number[],
  levels: readonly string[],
): { readonly names: readonly string[]; readonly groups: readonly (readonly number[])[] } {
  const byName = new Map<string, number[]>();
  values.forEach((value, i) => {
    const group = byName.get(levels[i]!);
    if (group === undefined) byName.set(levels[i]!, [value]);
    else group.push(value);
  });
  return { names: [...byName.keys()], groups: [...byName.values()] };
}

/**
 * Values of a complete balanced crossed layout as cells[row][column][repeat].
 * @throws Undetermined where a cell is empty or the cells differ in size
 */
export function cellsOf(
  values: readonly number[],
  rows: readonly string[],
  columns: readonly string[],
  procedure: string,
): {
  readonly rowNames: readonly string[];
  readonly columnNames: readonly string[];
  readonly cells: readonly (readonly (readonly number[])[])[];
} {
  const rowNames = distinct(rows);
  const columnNames = distinct(columns);
  const cells = rowNames.map((row) =>
    columnNames.map((column) => values.filter((_, i) => rows[i] === row && columns[i] === column)),
  );
  const size = cells[0]?.[0]?.length ?? 0;
  cells.forEach((line, r) =>
    line.forEach((cell, c) => {
      if (cell.length === size && size > 0) return;
      throw new Undetermined(
        `${procedure} needs the same number of values in every cell; (${rowNames[r]}, ${columnNames[c]}) has ` +
          `${cell.length}, (${rowNames[0]}, ${columnNames[0]}) has ${size}; use reml for unbalanced data`,
      );
    }),
  );
  return { rowNames, columnNames, cells };
}

/** Checks cells[row][column][repeat]: rectangular, finite, and at least so many of each. */
export function checkCells(
  cells: readonly (readonly (readonly number[])[])[],
  least: { readonly rows: number; readonly columns: number; readonly repeats: number },
  procedure: string,
): { readonly rows: number; readonly columns: number; readonly repeats: number } {
  const rows = cells.length;
  const columns = cells[0]?.length ?? 0;
  const repeats = cells[0]?.[0]?.length ?? 0;
  for (const line of cells) {
    if (line.length !== columns) throw new Undetermined(`${procedure} needs every row to have ${columns} columns`);
    for (const cell of line) {
      checkValues(cell, 0, procedure);
      if (cell.length !== repeats)
        throw new Undetermined(`${procedure} needs ${repeats} values in every cell; use reml`);
    }
  }
  if (rows < least.rows || columns < least.columns || repeats < least.repeats) {
    throw new Undetermined(
      `${procedure} needs at least ${least.rows} x ${least.columns} cells of ${least.repeats}, got ${rows} x ${columns} of ${repeats}`,
    );
  }
  return { rows, columns, repeats };
}
