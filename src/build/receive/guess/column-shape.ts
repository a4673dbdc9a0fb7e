import { splitStream } from "../../../keystroke/index.js";
import { numberReader } from "../number-cell.js";
import type { Layout } from "../columns.js";
import type { SourceTable } from "../source-table.js";
import { unitOfWord } from "../unit-words.js";

/** One column of a file as it looks. */
export interface ColumnLook {
  readonly position: number;
  /** Its name in the header; empty where there is none. */
  readonly name: string;
  /** Numbers of all rows, where all cells that are not empty hold one; else null. */
  readonly numbers: Float64Array | null;
  /** Its distinct texts, in the order of appearance; at most 40. */
  readonly words: readonly string[];
  readonly isEmpty: boolean;
  /** Whether every cell names one and the same unit of measure. */
  readonly unitWord: string | undefined;
  readonly isWhole: boolean;
  /** Grows, or falls, in every row. */
  readonly isMonotone: boolean;
}

const wordsKept = 40;

export function lookAtColumns(table: SourceTable, layout: Layout): readonly ColumnLook[] {
  return Array.from({ length: table.width }, (_, position) => lookAt(table, layout, position));
}

function lookAt(table: SourceTable, layout: Layout, position: number): ColumnLook {
  const cells = table.rows.cells.map((row) => row[position] ?? "");
  const words = new Set<string>();
  for (const cell of cells) if (words.size < wordsKept) words.add(cell);
  const numbers = numbersOf(cells, layout);
  const units = [...words].map(unitOfWord);
  return {
    position,
    name: table.header?.[position] ?? "",
    numbers,
    words: [...words],
    isEmpty: cells.every((cell) => cell === ""),
    unitWord: words.size === 1 ? units[0] : undefined,
    isWhole: numbers !== null && numbers.every((each) => Number.isNaN(each) || Number.isInteger(each)),
    isMonotone: numbers !== null && isMonotone(numbers),
  };
}

function numbersOf(cells: readonly string[], layout: Layout): Float64Array | null {
  const read = numberReader(layout);
  const numbers = new Float64Array(cells.length);
  let filled = 0;
  for (const [row, cell] of cells.entries()) {
    const number = cell === "" ? undefined : read(cell);
    if (number !== undefined && "wrong" in number) return null;
    numbers[row] = number === undefined ? NaN : Number(number.text);
    if (number !== undefined) filled += 1;
  }
  return filled === 0 ? null : numbers;
}

function isMonotone(numbers: Float64Array): boolean {
  if (numbers.length < 3) return false;
  const sign = Math.sign(numbers[1]! - numbers[0]!);
  return sign !== 0 && numbers.every((each, i) => i === 0 || Math.sign(each - numbers[i - 1]!) === sign);
}

/** How two columns look as the displacement and the force of one stream. */
export interface PairLook {
  readonly presses: number;
  readonly releases: number;
  /** Share of the steps along a press that go back: small for what a drive moves, larger for what is measured. */
  readonly backShare: number;
  /** The displacement falls while pressing; the force is negative. */
  readonly isDisplacementReversed: boolean;
  readonly isForceReversed: boolean;
  /** Extent of the displacement, and the largest force, in the columns' own units of measure. */
  readonly range: number;
  readonly largest: number;
}

/** Rows that are enough to see how columns move. */
const rowsLookedAt = 20_000;

/** Tries two columns as displacement and force of one stream; undefined where they hold no press. */
export function lookAtPair(allDisplacement: Float64Array, allForce: Float64Array): PairLook | undefined {
  const displacement = allDisplacement.subarray(0, rowsLookedAt);
  const force = allForce.subarray(0, rowsLookedAt);
  if (![...displacement, ...force].every(Number.isFinite)) return undefined;
  const extremes = force.reduce(([low, high], each) => [Math.min(low, each), Math.max(high, each)] as const, [Infinity, -Infinity] as const); // prettier-ignore
  const isForceReversed = -extremes[0] > 2 * Math.max(extremes[1], 0);
  const turned = isForceReversed ? force.map((each) => -each) : force;
  const { cycles } = splitStream(displacement, turned);
  const first = cycles[0]?.press;
  if (first === undefined) return undefined;
  const press = displacement.subarray(first.from, first.to);
  const isDisplacementReversed = press.at(-1)! < press[0]!;
  let [steps, back] = [0, 0];
  for (let i = 1; i < press.length; i += 1) {
    const step = (press[i]! - press[i - 1]!) * (isDisplacementReversed ? -1 : 1);
    if (step !== 0) steps += 1;
    if (step < 0) back += 1;
  }
  return {
    presses: cycles.length,
    releases: cycles.filter(({ release }) => release !== null).length,
    backShare: steps === 0 ? 1 : back / steps,
    isDisplacementReversed,
    isForceReversed,
    range: press.reduce((most, each) => Math.max(most, Math.abs(each - press[0]!)), 0),
    largest: turned.reduce((most, each) => Math.max(most, each), 0),
  };
}
