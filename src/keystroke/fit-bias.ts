import { evidenceStep } from "../metrology/evidence.js";
import { roundSignificant } from "../metrology/print.js";
import { Quantity } from "../metrology/quantity.js";
import type { Source } from "../metrology/source.js";
import { meanOf, varianceOf } from "../statistics/numeric/sums.js";
import { buildCharacteristics, characteristicNames } from "./characteristics.js";
import type { Estimates } from "./cycle-estimates.js";
import type { Estimate, Term } from "./estimate.js";
import { beyondNoise, componentsOf, term } from "./estimate.js";
import type { KeyCharacteristic } from "./model.js";
import type { ReducedCycle } from "./reduce-cycle.js";

/**
 * What may be left of a bias after its correction, as a rectangular half-width in shares of the correction.
 *
 * Smoothing: the first term of a series in the window is taken off; the others are taken to add up to half of it at most.
 * An extreme: the scatter of its place may be real, and then nothing is to be taken off; and beyond second order, where
 * noise bends the curve as much as the key does, the bias is larger: from nothing to twice the correction.
 */
const remainderShares = { smoothing: 1 / 2, extreme: 1 } as const;

type BiasRole = "smoothing" | "window" | "extreme";

const isBias = (role: Term["role"]): role is BiasRole =>
  role === "smoothing" || role === "window" || role === "extreme";

/** A bias of local fits in one characteristic of a session. */
interface Correction {
  readonly bias: number;
  /** What stays uncertain about it, the same for all cycles. */
  readonly terms: readonly Term[];
}

type Corrections = ReadonlyMap<string, Correction>;

/** By the place of an extreme: squared deviation of each cycle from its key's mean, as one of a sample; in mm². */
type Scatter = (cycle: ReducedCycle, place: KeyCharacteristic) => number | null;

/**
 * Takes the biases of local fits off every cycle of a session.
 *
 * One stroke shows them only through noise, but the keys of a unit are of one shape: the mean over all used cycles of all
 * keys is taken off each cycle (JCGM 100:2008, 3.2.4). In its place stand two components that all of them share: the
 * standard error of that mean (Type A), and what may be left (Type B, rectangular).
 *
 * - Smoothing: a window rounds the curve off; each fit states what half its window or a cubic would change.
 * - Extremes: a peak of a noisy curve is read too high and a valley too low, by |F''| u²(x) / 2 to second order, with u(x)
 *   the scatter of its place from cycle to cycle.
 *
 * Nothing is taken off, and what stands out of the noise is a component, where only one stroke shows a bias, and for what
 * half the window changes in the force of an extreme, since it picks an extreme of other noise.
 *
 * @param cycles of one session, all keys; the unused ones are corrected as the used ones are
 * @returns the cycles in the order given; terms of fits that no used cycle has stay as they are
 */
export function withoutFitBias(cycles: readonly ReducedCycle[]): readonly ReducedCycle[] {
  const used = cycles.filter((cycle) => cycle.reduction.used);
  const scatter = placeScatter(used);
  const corrections = new Map(characteristicNames.map((name) => [name, correctionsOf(used, name, scatter)]));
  return cycles.map((cycle) => corrected(cycle, (name) => corrections.get(name)!));
}

function placeScatter(used: readonly ReducedCycle[]): Scatter {
  const valueOf = (cycle: ReducedCycle, place: KeyCharacteristic): readonly number[] => {
    const estimate = cycle.estimates[place];
    return estimate.found ? [estimate.value] : [];
  };
  return (cycle, place) => {
    const [own] = valueOf(cycle, place);
    const all = used
      .filter((each) => each.reduction.key === cycle.reduction.key)
      .flatMap((each) => valueOf(each, place));
    if (own === undefined || all.length < 2) return null;
    return ((own - meanOf(all)) ** 2 * all.length) / (all.length - 1);
  };
}

interface Biases {
  readonly source: Source;
  readonly role: BiasRole;
  /** One a used cycle, with its key and with the value that it is part of. */
  readonly seen: { readonly key: string; readonly bias: number; readonly value: number }[];
  /** Signed standard uncertainty of a single one. */
  readonly noise: number;
}

function correctionsOf(used: readonly ReducedCycle[], name: KeyCharacteristic, scatter: Scatter): Corrections {
  const found = new Map<string, Biases>();
  for (const cycle of used) {
    const estimate = cycle.estimates[name];
    if (!estimate.found) continue;
    const { value, terms } = estimate;
    for (const each of terms) {
      if (!isBias(each.role)) continue;
      const squared = each.place === undefined ? 1 : scatter(cycle, each.place);
      if (squared === null) continue;
      const { source, role, noise = each.contribution } = each;
      const known = found.get(source.id) ?? { source, role, seen: [], noise };
      known.seen.push({ key: cycle.reduction.key, bias: squared * each.contribution, value });
      found.set(source.id, known);
    }
  }
  return new Map([...found].map(([id, biases]) => [id, correctionOf(biases)]));
}

function correctionOf({ source, role, seen, noise }: Biases): Correction {
  const count = seen.length;
  const biases = seen.map((each) => each.bias);
  const bias = meanOf(biases);
  if (count < 2 || role === "window") {
    const unsure = count < 2 ? noise : Math.sqrt(varianceOf(biases) / count);
    return { bias: 0, terms: [{ role: "shared", source, contribution: beyondNoise(bias, unsure) }] };
  }
  // Noise moves a value and what is seen of its bias together, so the scatter of the values misses twice the covariance.
  const variance = Math.max(0, varianceOf(biases) - 2 * covarianceWithinKeys(seen));
  // The sign is that of the sensitivity, so that force and ratio, say, share the error as they share the fit.
  const error = Math.sign(noise) * Math.sqrt(variance / count);
  const observed: Source = { ...source, type: "A", distribution: "t", dof: count - 1 };
  const left: Source = { ...source, id: `${source.id}/remainder`, label: `${source.label}, what may be left` };
  const remainder = (remainderShares[role] * bias) / Math.sqrt(3);
  return { bias, terms: [term("shared", observed, error), term("shared", left, remainder)] };
}

function covarianceWithinKeys(seen: Biases["seen"]): number {
  let sum = 0;
  let dof = 0;
  for (const key of new Set(seen.map((each) => each.key))) {
    const own = seen.filter((each) => each.key === key);
    const [bias, value] = [meanOf(own.map((each) => each.bias)), meanOf(own.map((each) => each.value))];
    for (const each of own) sum += (each.bias - bias) * (each.value - value);
    dof += own.length - 1;
  }
  return dof > 0 ? sum / dof : 0;
}

function corrected(cycle: ReducedCycle, of: (name: KeyCharacteristic) => Corrections): ReducedCycle {
  const estimates = Object.fromEntries(
    characteristicNames.map((name) => [name, correctedEstimate(cycle.estimates[name], of(name))]),
  ) as Estimates;
  const { characteristics } = cycle.reduction;
  const rebuilt = buildCharacteristics((name, symbol) => {
    const estimate = estimates[name];
    const before = characteristics[name];
    if (!estimate.found || before.absent || estimate.value === before.value) return before;
    const by = `${roundSignificant(estimate.value - before.value, 2)}${symbol === "1" ? "" : ` ${symbol}`}`;
    const evidence = evidenceStep(`corrected by ${by} for the bias of local fits`, [before.evidence]);
    return new Quantity(estimate.value, symbol, componentsOf(estimate.terms), evidence);
  });
  return { ...cycle, estimates, reduction: { ...cycle.reduction, characteristics: rebuilt } };
}

function correctedEstimate(estimate: Estimate, corrections: Corrections): Estimate {
  if (!estimate.found || corrections.size === 0) return estimate;
  let { value } = estimate;
  const terms = estimate.terms.flatMap((each) => {
    const correction = isBias(each.role) ? corrections.get(each.source.id) : undefined;
    if (correction === undefined) return [each];
    value -= correction.bias;
    return correction.terms;
  });
  return { ...estimate, value, terms };
}
