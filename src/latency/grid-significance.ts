import { mean } from "d3-array";
import { seededRandom } from "../metrology/random.js";
import type { Random } from "../metrology/random.js";
import { standardDeviation } from "./kept-mean.js";
import type { CombPeak, CombRange } from "./periodogram.js";
import { combPeak, combRange } from "./periodogram.js";

const draws = 499;
/** A simulation stops at this many draws beyond the observed value. */
const enoughExceeding = 10;

/**
 * p of a comb's largest ordinate against smooth scatter, by seeded simulation (499 draws): even over the observed range,
 * normal with the observed sd, and exponential above the observed least, all read on the same frames and
 * searched over their own range; the largest p counts. Sequential (J. Besag and
 * P. Clifford, Biometrika 78 (1991) 301): 10/i where the tenth exceeding draw is the i-th, else (1 + exceeding)/500.
 *
 * Where already the bound (number of independent frequencies) x exp(-n r^2) is above 0.2, that bound (at most 1) is
 * returned and nothing is simulated.
 */
export function combPValue(
  sorted: readonly number[],
  peak: CombPeak,
  range: CombRange,
  options: { readonly stepMs: number; readonly seed: number },
): number {
  const n = sorted.length;
  const low = sorted[0]!;
  const width = sorted.at(-1)! - low;
  const independent = Math.max(1, (range.highPerMs - range.lowPerMs) * width);
  const bound = Math.min(1, independent * Math.exp(-n * peak.resultantLength ** 2));
  if (bound > 0.2) return bound;
  const center = mean(sorted)!;
  const sd = standardDeviation(sorted);
  const random = seededRandom(options.seed);
  const smooth: readonly (() => number)[] = [
    () => low + width * random.uniform(),
    () => center + sd * random.normal(),
    () => low - (center - low) * Math.log(random.uniform()),
  ];
  return Math.max(
    ...smooth.map((draw) => {
      let exceeding = 0;
      for (let i = 1; i <= draws; i++) {
        const sample = Array.from({ length: n }, () => readOnFrames(draw(), options.stepMs, random));
        const own = combRange(
          sample.sort((a, b) => a - b),
          options.stepMs,
        );
        if (own !== null && combPeak(sample, own).resultantLength >= peak.resultantLength) exceeding++;
        if (exceeding === enoughExceeding) return exceeding / i;
      }
      return (1 + exceeding) / (1 + draws);
    }),
  );
}

/**
 * Two-sided p of an observed sd of n times where waiting for one period at random phases is all that scatters, read on
 * frames at random phases: seeded simulation, 499 draws, twice the smaller tail.
 */
export function widthPValue(
  observedSdMs: number,
  n: number,
  options: { readonly periodMs: number; readonly stepMs: number; readonly seed: number },
): number {
  const { periodMs, stepMs } = options;
  const random = seededRandom(options.seed);
  let above = 0;
  let below = 0;
  for (let i = 0; i < draws; i++) {
    const sd = standardDeviation(
      Array.from({ length: n }, () => readOnFrames(periodMs * random.uniform(), stepMs, random)),
    );
    if (sd >= observedSdMs * (1 - 1e-9)) above++;
    if (sd <= observedSdMs * (1 + 1e-9)) below++;
  }
  return Math.min(1, (2 * (1 + Math.min(above, below))) / (1 + draws));
}

/** A duration as film shows it: whole frames between the first frames that show its two ends. */
function readOnFrames(durationMs: number, stepMs: number, random: Random): number {
  return stepMs > 0 ? Math.floor(durationMs / stepMs + random.uniform()) * stepMs : durationMs;
}
