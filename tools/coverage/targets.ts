import type { KeyCharacteristic } from "../../src/keystroke/index.js";
import { characteristicNames, characteristicSymbols } from "../../src/keystroke/index.js";

/**
 * What a stated uncertainty is about: one key; the mean over all N alphabetic keys, from the keys that were measured; the
 * mean of the measured keys alone; the standard deviation between keys, of those that this unit could have and of those
 * that it has; a connection, with the pre-travel of the pressed key or of others.
 */
export const targets = {
  key: "one key",
  unit: "mean of all keys",
  these: "mean of these keys",
  between: "sd between keys",
  connection: "connection",
  others: "connection, pre-travel of other keys",
} as const;

export type Target = keyof typeof targets;

export type LatencyResult = "latency" | "latencyKept" | "median" | "p90";

export const latencyResults = ["latency", "latencyKept", "median", "p90"] as const satisfies readonly LatencyResult[];

/** One line of the table. */
export interface RowName {
  readonly characteristic: KeyCharacteristic | LatencyResult;
  readonly target: Target;
}

const keyTargets = ["key", "unit", "these", "between"] as const satisfies readonly Target[];
const latencyTargets = ["connection", "others"] as const satisfies readonly Target[];

/** All lines, in the order in which they are printed. */
export const rowNames: readonly RowName[] = [
  ...characteristicNames.flatMap((characteristic) => keyTargets.map((target) => ({ characteristic, target }))),
  ...latencyResults.flatMap((characteristic) => latencyTargets.map((target) => ({ characteristic, target }))),
];

/** Unit of measure of a line. */
export function symbolOf({ characteristic }: RowName): string {
  return characteristic in characteristicSymbols ? characteristicSymbols[characteristic as KeyCharacteristic] : "ms";
}

export function rowKey({ characteristic, target }: RowName): string {
  return `${characteristic} ${target}`;
}
