import type { Table, TableColumn } from "../figures/table.js";
import { placesFor, roundSignificant, roundToPlaces } from "../metrology/print.js";
import type { Measured, Quantity } from "../metrology/quantity.js";
import { isCount, isPlainQuantity } from "./ground-book.js";
import { numberIn } from "./table-values.js";

/** Most significant digits of the largest number of a column. */
const columnDigits = 4;

/**
 * Decimal places that numbers of one column share: as many as the largest keeps at `digits` significant digits, less the zeros
 * that all of them would end with. Null where there is no number but zeros, or where one would be left with fewer than two
 * significant digits that has more: such a column cannot be set with one number of places.
 */
export function commonPlaces(values: readonly number[], digits: number = columnDigits): number | null {
  const largest = Math.max(0, ...values.map(Math.abs));
  if (!(largest > 0)) return null;
  const most = Math.max(0, placesFor(largest, digits));
  const places = Math.max(...values.map((value) => decimalsIn(roundToPlaces(value, most))));
  const keeps = (value: number): boolean =>
    value === 0 ||
    placesFor(value, 2) <= places ||
    plain(roundToPlaces(value, places)) === plain(roundSignificant(value, digits));
  return values.every(keeps) ? places : null;
}

/** Decimals of a number's text without the zeros at its end. */
function decimalsIn(text: string): number {
  return (text.split(".")[1] ?? "").replace(/0+$/, "").length;
}

function plain(text: string): number {
  return Number(text.replace("\u2212", "-"));
}

/**
 * Decimal places of each computed number without uncertainty in a table, whose own zeros at the end would else be lost: the
 * same within a column, and across columns that show values alone, such as those of a sum. What a file states stands as it is
 * there, and is not in the map.
 */
export function tablePlaces(table: Table): ReadonlyMap<Measured, number> {
  const places = new Map<Measured, number>();
  const sums = table.columns.filter(({ show }) => show === "value");
  for (const columns of [...table.columns.map((column) => [column]), sums]) {
    for (const alike of bySymbol(bareNumbers(table, columns))) {
      const common = commonPlaces(alike.map(({ value }) => value));
      if (common !== null) for (const number of alike) places.set(number, common);
    }
  }
  return places;
}

function bareNumbers(table: Table, columns: readonly TableColumn[]): readonly Quantity[] {
  return columns.flatMap(({ key }) =>
    table.rows.flatMap((row) => {
      const number = numberIn(row[key]);
      const isBare = number !== null && !isCount(number) && isPlainQuantity(number) && number.u === 0;
      return isBare && number.evidence.kind === "step" ? [number] : [];
    }),
  );
}

function bySymbol(numbers: readonly Quantity[]): readonly (readonly Quantity[])[] {
  return [...new Set(numbers.map(({ symbol }) => symbol))].map((symbol) =>
    numbers.filter((number) => number.symbol === symbol),
  );
}
