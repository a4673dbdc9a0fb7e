import type { PressCounts } from "./model.js";
import type { ObservedPress } from "./observed-press.js";
import { isValid } from "./observed-press.js";

/** Counts what became of the presses: excluded by hand first, then by fault, else valid; the kinds add up to `recorded`. */
export function countPresses(presses: readonly ObservedPress[]): PressCounts {
  const counts = { excluded: 0, missed: 0, double: 0, unreadable: 0, impossible: 0, incomplete: 0 };
  for (const press of presses) {
    if (press.excluded !== "") counts.excluded++;
    else if (press.fault !== null) counts[press.fault.kind]++;
  }
  return { recorded: presses.length, valid: presses.filter(isValid).length, ...counts };
}
