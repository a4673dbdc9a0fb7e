import { isQuantity, type Measured, type Quantity } from "../../metrology/quantity.js";
import { safeLabel } from "../drawing/safe-text.js";
import { joinWords } from "./words.js";

/** How the items of a figure are named. */
export interface LabelOptions<T> {
  /** Name of an item on the page; default: its `label`, `key`, `unit`, `connection`, `name` or `id`, the first there is. */
  readonly label?: (item: T, index: number) => string;
  /** What one item is, for sentences: "key"; default: by the items' own properties, else "item". */
  readonly noun?: string;
}

/** An item of a figure: its label, its measured value, its place in the given order. */
export interface Entry {
  readonly label: string;
  readonly measured: Measured;
  readonly index: number;
}

/** An item whose value is there. */
export interface Reading extends Entry {
  readonly measured: Quantity;
}

const labelProperties = ["label", "key", "unit", "connection", "name", "id"] as const;

/** The label of one item. @throws RangeError where it has none of the usual properties and no accessor was given */
export function labelOf<T>(item: T, index: number, options: LabelOptions<T>, where: string): string {
  if (options.label !== undefined) return safeLabel(options.label(item, index));
  const record = item as Readonly<Record<string, unknown>>;
  const property = labelProperties.find((name) => typeof record[name] === "string");
  if (property !== undefined) return safeLabel(record[property] as string);
  throw new RangeError(
    `the ${where} cannot name item ${index + 1}: it has none of ${labelProperties.join(", ")}; give label: (item) => ...`,
  );
}

/** What one item is called in a sentence. */
export function nounOf<T>(items: readonly T[], options: LabelOptions<T>): string {
  if (options.noun !== undefined) return options.noun;
  const first = items[0] as Readonly<Record<string, unknown>> | undefined;
  return ["key", "unit", "connection"].find((name) => typeof first?.[name] === "string") ?? "item";
}

/**
 * The items of a figure with their values, in the given order.
 * @throws RangeError where two values differ in their unit of measure, or an accessor gives no measured value
 */
export function entriesOf<T>(
  items: readonly T[],
  value: (item: T, index: number) => Measured,
  options: LabelOptions<T>,
  where: string,
): readonly Entry[] {
  const entries = items.map((item, index) => ({
    label: labelOf(item, index, options, where),
    measured: checkMeasured(value(item, index), index, where),
    index,
  }));
  checkOneSymbol(
    entries.map((entry) => entry.measured),
    where,
  );
  return entries;
}

/** The entries that have a value. */
export function readingsOf<E extends Entry>(entries: readonly E[]): readonly (E & Reading)[] {
  return entries.filter((entry): entry is E & Reading => isQuantity(entry.measured));
}

/** The entries that have none, as a clause with the reasons; empty where all have one. */
export function sayAbsent(entries: readonly Entry[]): string {
  const words = reasonWords(
    entries.flatMap(({ label, measured }) => (measured.absent ? [{ label, reason: measured.reason }] : [])),
  );
  return words === "" ? "" : `not available: ${words}`;
}

/** Labels by their reason, each reason once: "KeyA and KeyE (no peak), KeyP (excluded)"; the third reason and on are counted. */
export function reasonWords(missing: readonly { readonly label: string; readonly reason: string }[]): string {
  const byReason = new Map<string, string[]>();
  for (const { label, reason } of missing) byReason.set(reason, [...(byReason.get(reason) ?? []), label]);
  const shown = [...byReason].slice(0, 2);
  const rest = missing.length - shown.reduce((count, [, labels]) => count + labels.length, 0);
  const words = shown.map(([reason, labels]) => `${joinWords(labels)} (${reason})`).join(", ");
  return rest === 0 ? words : `${words} and ${rest} more`;
}

/** Refuses what is no measured value, with its place. */
export function checkMeasured(value: Measured, index: number, where: string): Measured {
  if (typeof value !== "object" || value === null || typeof value.absent !== "boolean") {
    throw new RangeError(`the ${where} needs a quantity or an absence for item ${index + 1}, got ${String(value)}`);
  }
  return value;
}

/** The one unit of measure of all values. @throws RangeError where they differ */
export function checkOneSymbol(values: readonly (Measured | undefined)[], where: string): string {
  const given = values.filter((value) => value !== undefined);
  const first = given[0];
  const odd = given.find((value) => value.symbol !== first?.symbol);
  if (odd !== undefined)
    throw new RangeError(`the ${where} mixes ${first!.symbol} and ${odd.symbol}: convert one of them`);
  return first?.symbol ?? "1";
}
