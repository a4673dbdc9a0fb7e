import { mean, quantileSorted } from "d3-array";
import type { Evidence } from "../metrology/evidence.js";
import { evidenceStep } from "../metrology/evidence.js";
import { Quantity } from "../metrology/quantity.js";
import { observedSource } from "../metrology/source.js";
import type { Component, Source } from "../metrology/source.js";
import { momentsKernel } from "../statistics/describe/moments.js";
import { keptMean, standardDeviation } from "./kept-mean.js";
import type { Observation } from "./observed-time.js";
import { frameFloorMs } from "./observed-time.js";
import { maritzJarrett } from "./order-statistics.js";

/** Results of one connection that rest on the same valid presses. */
export interface PressResults {
  /** One latency a valid press, in ms, in press order. */
  readonly latenciesMs: readonly number[];
  readonly stepsMs: readonly number[];
  /** All components of L but the scatter of presses: common to L, L_k, median and P90. */
  readonly common: readonly Component[];
  readonly evidence: readonly Evidence[];
}

/**
 * L_k, the mean of the k fastest of n, with u = s_w sqrt(n) / k and k - 1 degrees of freedom beside the components that L
 * has too; s_w is at least the frame's Tf / sqrt(6).
 *
 * L and L_k of one connection come from the same presses, but have sources of their own for their scatter: take
 * `keptMinusAll` for their difference, whose uncertainty knows of it.
 */
export function keptLatency(
  results: PressResults,
  kept: number,
  observation: Observation,
): {
  readonly latencyKept: Quantity<"ms">;
  readonly keptMinusAll: Quantity<"ms">;
  readonly indices: readonly number[];
} {
  const n = results.latenciesMs.length;
  const found = keptMean(results.latenciesMs, { kept });
  const floor = frameFloorMs(results.stepsMs, observation);
  const scatters = found.winsorizedSd >= floor;
  const source: Source = {
    id: `${observation.path}/presses-kept`,
    label: `Scatter of presses, ${kept} fastest of ${n}`,
    type: scatters ? "A" : "B",
    distribution: scatters ? "t" : "triangular",
    u: scatters ? found.u : (floor * Math.sqrt(n)) / kept,
    symbol: "ms",
    dof: scatters ? found.dof : Infinity,
  };
  const evidence = evidenceStep(`mean latency of the ${kept} fastest of ${n} valid presses`, results.evidence);
  const latencyKept = new Quantity(found.mean, "ms", [{ source, contribution: source.u }, ...results.common], evidence);
  const differenceU = kept === n ? 0 : Math.max(found.minusAllU, floor / Math.sqrt(n));
  const difference = observedSource(
    `${observation.path}/presses-kept-minus-all`,
    "Scatter of presses, fastest against all",
    differenceU,
    "ms",
    found.dof,
  );
  const keptMinusAll = new Quantity(
    found.minusAll,
    "ms",
    kept === n ? [] : [{ source: difference, contribution: difference.u }],
    evidenceStep(`mean of the ${kept} fastest minus mean of all ${n}`, results.evidence),
  );
  return { latencyKept, keptMinusAll, indices: found.keptIndices };
}

/**
 * A quantile of the valid presses' latencies (Hyndman-Fan type 7), with the standard error of Maritz and Jarrett, the
 * frame's own resolution (a quantile of whole frames is no finer: Tf / sqrt(12)) and the components that L has too.
 */
export function quantileLatency(results: PressResults, p: number, observation: Observation): Quantity<"ms"> {
  const n = results.latenciesMs.length;
  const sorted = [...results.latenciesMs].sort((a, b) => a - b);
  const label = p === 0.5 ? "median" : `P${Math.round(100 * p)}`;
  const scatter = observedSource(
    `${observation.path}/${label.toLowerCase()}`,
    `Scatter of presses, ${label}`,
    maritzJarrett(sorted, p),
    "ms",
    n - 1,
  );
  const u = Math.sqrt(mean(results.stepsMs, (step) => step * step)! / 12);
  const resolution: Source = {
    id: `${observation.path}/${label.toLowerCase()}/frames`,
    label: observation.film ? `Frames of the film, ${label}` : `Steps of the timer, ${label}`,
    type: "B",
    distribution: "rectangular",
    u,
    symbol: "ms",
    dof: Infinity,
  };
  return new Quantity(
    quantileSorted(sorted, p)!,
    "ms",
    [{ source: scatter, contribution: scatter.u }, { source: resolution, contribution: u }, ...results.common],
    evidenceStep(`${label} latency of ${n} valid presses`, results.evidence),
  );
}

/** sd of the valid presses' latencies, u = s / sqrt(2 (n - 1)) as for normal scatter (JCGM 100:2008, E.4.3). */
export function pressSd(results: PressResults, observation: Observation): Quantity<"ms"> {
  const n = results.latenciesMs.length;
  const s = standardDeviation(results.latenciesMs);
  const source = observedSource(
    `${observation.path}/press-sd`,
    "Number of presses",
    s / Math.sqrt(2 * (n - 1)),
    "ms",
    n - 1,
  );
  return new Quantity(
    s,
    "ms",
    [{ source, contribution: source.u }],
    evidenceStep(`sd of the latencies of ${n} valid presses`, results.evidence),
  );
}

/**
 * Sample skewness g1 = m3 / m2^1.5; null below three values or where all are equal. Its standard error for normal scatter
 * is sqrt(6 (n - 2) / ((n + 1) (n + 3))).
 */
export function skewness(values: readonly number[]): number | null {
  if (values.length < 3 || values.every((value) => value === values[0])) return null;
  return momentsKernel(values).skewness;
}

/** Where |g1| exceeds 2.5 of its standard errors, the scatter is called skewed. */
export function isSkewed(g1: number, n: number): boolean {
  return Math.abs(g1) > 2.5 * Math.sqrt((6 * (n - 2)) / ((n + 1) * (n + 3)));
}
