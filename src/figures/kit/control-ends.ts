import { placesFor } from "../../metrology/print.js";
import type { EndLabel } from "./end-labels.js";
import type { Bound } from "./limits.js";
import { sayNumber, sayStated } from "./words.js";

/** Lines that checks are held against. */
export interface ControlLimits {
  readonly centre?: Bound | undefined;
  readonly action?: { readonly min?: Bound; readonly max?: Bound } | undefined;
  readonly warning?: { readonly min?: Bound; readonly max?: Bound } | undefined;
}

/**
 * Names and numbers of the lines at the right end of a control chart. A number of up to six digits stands as it is; one that
 * was computed is rounded, to so many decimals that no two lines print alike.
 * @param x where the lines end, in data coordinates
 */
export function controlEnds({ centre, action, warning }: ControlLimits, x: number): readonly EndLabel[] {
  const lines = [
    { name: "centre", bound: centre },
    { name: "action", bound: action?.max },
    { name: "action", bound: action?.min },
    { name: "warning", bound: warning?.max },
    { name: "warning", bound: warning?.min },
  ].flatMap(({ name, bound }) => (bound === undefined ? [] : [{ name, value: bound.value }]));
  const places = placesBetween(lines.map(({ value }) => value));
  return lines.map(({ name, value }) => {
    const isStated = Number(value.toPrecision(6)) === value;
    const number = isStated ? sayStated(value, "1") : sayNumber(value, "1", places);
    return { x, y: value, text: `${name} ${number}`, quiet: name === "warning" };
  });
}

function placesBetween(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const gaps = sorted.slice(1).map((value, index) => value - sorted[index]!);
  const apart = gaps.filter((gap) => gap > 0);
  return apart.length === 0 ? 6 : placesFor(Math.min(...apart), 2);
}
