import type { Count, Measured, Quantity } from "../metrology/quantity.js";
import type { Printed } from "../metrology/print.js";
import { printQuantity, roundSignificant, roundToPlaces } from "../metrology/print.js";
import { isCount } from "./ground-book.js";
import type { Markup } from "./markup.js";
import { html } from "./markup.js";
import type { Page } from "./page-state.js";

export type Show = "value_and_uncertainty" | "value" | "uncertainty";

export interface NumberOptions {
  /** Default `value_and_uncertainty`. */
  readonly show?: Show;
  /** Unit of measure that stands in a column's head already; a number in another one prints its own. */
  readonly columnSymbol?: string;
  /** Decimal places of a quantity without uncertainty; left out: those that it has, without zeros at the end. */
  readonly places?: number;
}

/** The places of a number that stands in a column of a table, as an option; none where it stands in none. */
export function placesOf(page: Pick<Page, "places">, number: Measured | Count): Pick<NumberOptions, "places"> {
  const places = isCount(number) ? undefined : page.places.get(number);
  return places === undefined ? {} : { places };
}

/** The words for a result that is not there; its reason stands in its ground. */
export const notAvailable = "not available";

/**
 * A number as it is printed, without its mark: "(45.2 ± 1.3) cN"; below a column's unit of measure "45.2 ± 1.3"; a count as
 * it stands; an absence as "not available". U of a quantity without uncertainty prints as "0".
 */
export function numberText(number: Measured | Count, options: NumberOptions = {}): string {
  if (isCount(number)) return String(number.count);
  if (number.absent) return notAvailable;
  const printed = printedAs(number, options.places);
  const bare = options.columnSymbol === number.symbol;
  const unit = bare || printed.symbol === "" ? "" : `\u00a0${printed.symbol}`;
  const show = options.show ?? "value_and_uncertainty";
  if (show === "value") return printed.value + unit;
  if (show === "uncertainty") return (printed.uncertainty === "" ? "0" : printed.uncertainty) + unit;
  if (printed.uncertainty === "") return printed.value + unit;
  const pair = `${printed.value}\u00a0±\u00a0${printed.uncertainty}`;
  return unit === "" ? pair : `(${pair})${unit}`;
}

function printedAs(quantity: Quantity, places: number | undefined): Pick<Printed, "value" | "uncertainty" | "symbol"> {
  const printed = printQuantity(quantity);
  if (places === undefined || printed.uncertainty !== "") return printed;
  return { ...printed, value: roundToPlaces(quantity.value, places) };
}

/** A number in its markup. */
export function renderNumber(number: Measured | Count, options: NumberOptions = {}): Markup {
  const text = numberText(number, options);
  return !isCount(number) && number.absent
    ? html`<span class="absent">${text}</span>`
    : html`<span class="number">${text}</span>`;
}

/** A bare number of a chart's data, to six significant digits, without trailing zeros. */
export function plainNumberText(value: number): string {
  if (Number.isInteger(value) && Math.abs(value) < 1e15) return String(value).replace("-", "\u2212");
  const text = roundSignificant(value, 6);
  return text.includes(".") ? text.replace(/\.?0+$/, "") : text;
}

/** Two significant digits, for the columns of a budget; 0 stays 0. */
export function shortNumberText(value: number): string {
  return roundSignificant(value, 2);
}

/** Degrees of freedom: truncated to a whole number (JCGM 100:2008, G.4.1); "∞" where infinite, "> 999" above that. */
export function dofText(dof: number): string {
  if (dof === Infinity) return "∞";
  return dof > 999 ? ">\u00a0999" : String(Math.max(1, Math.floor(dof)));
}

/** A share of one in percent: "61 %"; below a half per cent "< 0.5 %". */
export function shareText(share: number): string {
  if (share > 0 && share < 0.005) return "<\u00a00.5\u00a0%";
  return `${Math.round(share * 100)}\u00a0%`;
}
