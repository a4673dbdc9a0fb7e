import type { SeededRandom } from "../../src/statistics/numeric/random.js";
import { seededRandom } from "../../src/statistics/numeric/random.js";

/**
 * What an experiment must show at alpha = 0.05 (or at a level of 95 %):
 * - `size`: the share of p-values at most 0.05 lies within 0.8 to 1.2 alpha.
 * - `discrete`: never above 1.2 alpha, and within 0.8 to 1.2 of the attainable level.
 * - `atMost`: at most 1.2 alpha.
 * - `coverage`: the share of hits lies within 94 to 96 %.
 * - `atLeast`: the share of hits is at least 94 % (procedures that are conservative by construction).
 * - `rateAtMost`: the mean of the results is at most 1.2 alpha (a false discovery rate).
 * - `printed`: an approximate test, whose size is told and not gated; `rate`: a false-flag rate, told.
 */
export type Aim = "size" | "discrete" | "atMost" | "coverage" | "atLeast" | "rateAtMost" | "printed" | "rate";

export interface Experiment {
  readonly name: string;
  readonly aim: Aim;
  /** A p-value for `size`, `discrete`, `atMost` and `printed`; otherwise 1 for a hit (or a flag's share), 0 for none. */
  readonly run: (random: SeededRandom) => number;
}

export interface Outcome {
  readonly name: string;
  readonly aim: Aim;
  readonly runs: number;
  /** Share of rejections, hits or flags. */
  readonly share: number;
  readonly low: number;
  readonly high: number;
  readonly passes: boolean;
}

const alpha = 0.05;

/** Runs an experiment; `slack` widens the gate by so many standard errors, for small numbers of runs. */
export function outcomeOf(experiment: Experiment, runs: number, seed: number, slack = 0): Outcome {
  const random = seededRandom(seed);
  const results = Array.from({ length: runs }, () => experiment.run(random));
  const rejects =
    experiment.aim === "size" ||
    experiment.aim === "discrete" ||
    experiment.aim === "atMost" ||
    experiment.aim === "printed";
  const share = results.reduce((total, r) => total + (rejects ? (r <= alpha ? 1 : 0) : r), 0) / runs;
  const [low, high] = gate(experiment.aim, results);
  const room = slack * Math.sqrt((alpha * (1 - alpha)) / runs);
  return {
    name: experiment.name,
    aim: experiment.aim,
    runs,
    share,
    low,
    high,
    passes: share >= low - room && share <= high + room,
  };
}

function gate(aim: Aim, results: readonly number[]): readonly [number, number] {
  if (aim === "size") return [0.8 * alpha, 1.2 * alpha];
  if (aim === "atMost" || aim === "rateAtMost") return [0, 1.2 * alpha];
  if (aim === "coverage") return [0.94, 0.96];
  if (aim === "atLeast") return [0.94, 1];
  if (aim === "discrete") {
    // The largest p-value up to alpha that occurs is the level that the test can attain.
    const attainable = results.reduce((best, p) => (p <= alpha && p > best ? p : best), 0);
    return [0.8 * attainable, Math.min(1.2 * attainable, 1.2 * alpha)];
  }
  return [0, 1];
}
