import type { BrokenAssumption } from "../simulation/simulate-unit.js";
import type { UnitOutcome } from "./measure-unit.js";
import { measureUnit } from "./measure-unit.js";

/** One piece of work: units of a run by their index. */
export interface Job {
  readonly seed: number;
  readonly indices: readonly number[];
  readonly broken: BrokenAssumption | null;
}

export type Answer =
  { readonly ok: true; readonly outcomes: readonly UnitOutcome[] } | { readonly ok: false; readonly error: string };

process.on("message", ({ seed, indices, broken }: Job) => {
  let answer: Answer;
  try {
    answer = { ok: true, outcomes: indices.map((index) => measureUnit(seed, index, broken)) };
  } catch (error) {
    answer = { ok: false, error: error instanceof Error ? (error.stack ?? error.message) : String(error) };
  }
  process.send!(answer);
});
process.on("disconnect", () => process.exit(0));
