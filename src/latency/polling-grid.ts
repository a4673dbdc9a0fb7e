import type { Evidence } from "../metrology/evidence.js";
import { evidenceStep } from "../metrology/evidence.js";
import { Absent, Quantity } from "../metrology/quantity.js";
import { observedSource } from "../metrology/source.js";
import { combSpacing } from "./comb-spacing.js";
import { combPValue, widthPValue } from "./grid-significance.js";
import { standardDeviation } from "./kept-mean.js";
import type { PollingGrid } from "./model.js";
import { combPeak, combRange } from "./periodogram.js";
import type { StatedPeriod } from "./stated-periods.js";

/** No comb is claimed from fewer presses; no width is compared from fewer than `leastForWidth`. */
const leastForComb = 12;
const leastForWidth = 8;
/** A comb is claimed below this p. */
const combLevel = 0.01;

/**
 * What the scatter of the observed times suggests about a grid in time: a comb (whole intervals added, as retries on a
 * link add them), by the largest ordinate of the periodogram |sum exp(2 pi i x / d)| over spacings d from 2.5 steps to
 * half the range; and, for each stated period, whether waiting for it alone would scatter as much (sd T / sqrt(12) with
 * the frames' own Tf / sqrt(6), both ends by simulation).
 *
 * A comb is claimed at p < 0.01 from 12 presses or more, and only where three or more teeth hold two presses each.
 * Significance by seeded simulation of smooth scatter (even, normal, exponential) read on the same frames; the largest p
 * counts.
 *
 * @param timesMs observed times of the valid presses, any order
 * @param options.stepMs frame time or timer step; `periods` as stated; `seed` whole number; `path` prefix of ids
 */
export function detectGrid(
  timesMs: readonly number[],
  options: {
    readonly stepMs: number;
    readonly periods: readonly StatedPeriod[];
    readonly seed: number;
    readonly path: string;
    readonly evidence: readonly Evidence[];
  },
): PollingGrid {
  const { stepMs, seed } = options;
  const n = timesMs.length;
  const evidence = evidenceStep("periodogram of the observed times", options.evidence);
  const widths = n < leastForWidth ? [] : compareWidths(timesMs, options);
  const without = (verdict: "none" | "not_resolved", pValue: number | null, suggestion: string): PollingGrid => ({
    verdict,
    spacing: new Absent("ms", suggestion, evidence),
    pValue,
    widths,
    suggestion: [suggestion, widthWords(widths)].filter((text) => text !== "").join(" "),
  });
  if (n < leastForComb) {
    return without("not_resolved", null, `${n} presses are too few to look for a comb (${leastForComb} are needed).`);
  }
  const sorted = [...timesMs].sort((a, b) => a - b);
  const range = combRange(sorted, stepMs);
  if (range === null) {
    return without("not_resolved", null, "The presses scatter too little against the frame to look for a comb.");
  }
  const peak = combPeak(sorted, range);
  const pValue = combPValue(sorted, peak, range, { stepMs, seed });
  if (!(pValue < combLevel)) return without("none", pValue, "The scatter shows no comb.");
  const comb = combSpacing(sorted, 1 / peak.frequencyPerMs);
  if (comb.teeth < 3) {
    return without(
      "none",
      pValue,
      comb.teeth === 2
        ? `The presses fall into 2 groups ${comb.spacingMs.toFixed(2)} ms apart; fewer than three make no comb.`
        : "The scatter shows no comb of three teeth.",
    );
  }
  const source = observedSource(`${options.path}/comb`, "Scatter about the comb", comb.u, "ms", n - 2);
  const near = options.periods.find(
    ({ periodMs }) => periodMs !== null && Math.abs(periodMs - comb.spacingMs) <= Math.max(2 * comb.u, 0.02 * periodMs),
  );
  const p = pValue < 0.001 ? "p < 0.001" : `p = ${pValue.toFixed(3)}`;
  return {
    verdict: "comb",
    spacing: new Quantity(comb.spacingMs, "ms", [{ source, contribution: comb.u }], evidence),
    pValue,
    widths,
    suggestion:
      `The presses stand on a comb of ${comb.teeth} teeth ${comb.spacingMs.toFixed(2)} ms apart (${p}): ` +
      "whole intervals are added, as a link that retries or skips an event adds them" +
      (near === undefined ? "; no stated period is that long." : `; the stated ${near.label} is that long.`),
  };
}

function compareWidths(
  timesMs: readonly number[],
  options: { readonly stepMs: number; readonly periods: readonly StatedPeriod[]; readonly seed: number },
): PollingGrid["widths"] {
  const observedSdMs = standardDeviation(timesMs);
  return options.periods.flatMap(({ period, periodMs }) => {
    if (periodMs === null || period === "camera_frame") return [];
    const expectedSdMs = Math.sqrt(periodMs ** 2 / 12 + options.stepMs ** 2 / 6);
    const pValue = widthPValue(observedSdMs, timesMs.length, { ...options, periodMs });
    return [{ period, periodMs, expectedSdMs, observedSdMs, pValue }];
  });
}

function widthWords(widths: PollingGrid["widths"]): string {
  const polling = widths.find(({ period }) => period === "polling");
  if (polling === undefined) return "";
  const { expectedSdMs, observedSdMs, periodMs } = polling;
  const alone = `waiting for the polling interval of ${periodMs.toFixed(3)} ms alone gives ${expectedSdMs.toFixed(2)} ms`;
  if (polling.pValue >= 0.05) return `An sd of ${observedSdMs.toFixed(2)} ms is what one expects: ${alone}.`;
  return observedSdMs > expectedSdMs
    ? `Their sd of ${observedSdMs.toFixed(2)} ms has more in it than polling: ${alone}.`
    : `Their sd of ${observedSdMs.toFixed(2)} ms is below what random phases give: ${alone}.`;
}
