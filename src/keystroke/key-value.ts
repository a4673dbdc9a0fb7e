import type { Evidence } from "../metrology/evidence.js";
import { evidenceStep } from "../metrology/evidence.js";
import type { Measured } from "../metrology/quantity.js";
import { Absent, Quantity } from "../metrology/quantity.js";
import type { Component, Source } from "../metrology/source.js";
import { meanOf } from "../statistics/numeric/sums.js";
import type { Estimate, Term } from "./estimate.js";
import { uncertaintyOf } from "./estimate.js";
import type { Repeatability } from "./repeatability.js";

/** One used cycle's estimate of one characteristic, with its evidence. */
export interface CycleValue {
  readonly estimate: Estimate;
  readonly evidence: Evidence;
}

export interface KeyValueOptions {
  /** Prefix of the ids of this key's own sources: `key/u07/s2/KeyF/preTravel`. */
  readonly path: string;
  readonly symbol: string;
  /** Scatter of the cycles; null where no key of the session has two. */
  readonly scatter: Repeatability | null;
  /** Id of the observations that a pooled scatter rests on, shared by the keys. */
  readonly block: string;
}

/** Prefix of the ids of sources that belong to one key. */
export function keyPath(unit: string, session: string, key: string): string {
  return `key/${unit}/${session}/${key}`;
}

/**
 * A key's value of one characteristic: the mean of its used cycles (measurement model, section 2).
 *
 * Its components are the shared ones of the cycles, averaged with their signs (rig, report, smoothing), beside the scatter
 * of the cycles over their number. The noise of the strokes does not enter again, since the scatter holds it. Spacing and
 * resolution would make a scatter of their own, step / sqrt(12), where each cycle meets the readings elsewhere; an
 * observed scatter below that says that they are the same in every cycle, and they enter undivided. Where no key has two
 * cycles, the components of the single stroke stand in.
 *
 * @returns absent where the characteristic is absent in more than half of the used cycles, with the most frequent reason
 */
export function keyValue(cycles: readonly CycleValue[], options: KeyValueOptions): Measured {
  const { symbol } = options;
  const found = cycles.flatMap(({ estimate, evidence }) => (estimate.found ? [{ estimate, evidence }] : []));
  if (found.length === 0 || found.length * 2 < cycles.length) {
    const evidence = evidenceStep("no value", cycles.map((each) => each.evidence)); // prettier-ignore
    return new Absent(symbol, commonReason(cycles), evidence);
  }
  const count = found.length;
  const value = meanOf(found.map((each) => each.estimate.value));
  const lists = found.map((each) => each.estimate.terms);
  const components = [...averaged(lists, "shared"), ...ownComponents(lists, options)];
  const note = count < cycles.length ? `absent in ${cycles.length - count} of ${cycles.length} used cycles` : undefined;
  const operation = count === 1 ? "one cycle" : `mean of ${count} cycles`;
  const evidence = evidenceStep(operation, found.map((each) => each.evidence), note); // prettier-ignore
  return new Quantity(
    value,
    symbol,
    components.filter((each) => each.contribution !== 0),
    evidence,
  );
}

function ownComponents(lists: readonly (readonly Term[])[], options: KeyValueOptions): readonly Component[] {
  const { scatter, path, symbol, block } = options;
  if (scatter === null) return [...averaged(lists, "noise"), ...averaged(lists, "grid")];
  const count = lists.length;
  const gridU = Math.sqrt(lists.reduce((total, terms) => total + uncertaintyOf(terms, "grid") ** 2, 0) / count);
  const u = Math.sqrt(scatter.variance / count);
  const pooled = scatter.keys > 1 ? `, pooled over ${scatter.keys} keys` : "";
  const own: Source = {
    id: `${path}/cycles`,
    label: `Scatter of the cycles${pooled}`,
    type: "A",
    distribution: "t",
    u,
    symbol,
    dof: scatter.dof,
    ...(scatter.keys > 1 ? { block } : {}),
  };
  const components: Component[] = [{ source: own, contribution: u }];
  if (scatter.variance < gridU ** 2) {
    const label = "Spacing and resolution of the readings";
    const grid: Source = { id: `${path}/grid`, label, type: "B", distribution: "rectangular", u: gridU, symbol, dof: Infinity }; // prettier-ignore
    components.push({ source: grid, contribution: gridU });
  }
  return components;
}

/** The terms of one role, averaged over the cycles; a source that some cycles lack counts 0 there. */
function averaged(lists: readonly (readonly Term[])[], role: Term["role"]): readonly Component[] {
  return lists.flatMap((terms) =>
    terms
      .filter((each) => each.role === role)
      .map((each) => ({ source: each.source, contribution: each.contribution / lists.length })),
  );
}

function commonReason(cycles: readonly CycleValue[]): string {
  const counts = new Map<string, number>();
  for (const { estimate } of cycles) {
    if (!estimate.found) counts.set(estimate.reason, (counts.get(estimate.reason) ?? 0) + 1);
  }
  let best = "no cycle of this key is used";
  let most = 0;
  for (const [reason, count] of counts) {
    if (count > most) {
      best = reason;
      most = count;
    }
  }
  return best;
}
