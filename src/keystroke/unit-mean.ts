import type { Evidence } from "../metrology/evidence.js";
import { evidenceStep } from "../metrology/evidence.js";
import type { Measured } from "../metrology/quantity.js";
import { Absent, Quantity, isQuantity } from "../metrology/quantity.js";
import type { Component } from "../metrology/source.js";
import { observedSource } from "../metrology/source.js";
import { checkOptions } from "../statistics/numeric/guards.js";
import { meanOf, varianceOf } from "../statistics/numeric/sums.js";
import { modifiedLargeSampleKernel } from "../statistics/variance/modified-large-sample.js";
import { characteristicNames } from "./characteristics.js";
import type { KeyCharacteristics, KeyReduction } from "./model.js";
import type { Repeatability } from "./repeatability.js";
import { repeatability } from "./repeatability.js";

export interface UnitMeanOptions {
  /** N, the number of alphabetic keys of the unit (unit.yaml); at least the number of measured keys. */
  readonly alphabeticKeys: number;
  /** Name of the characteristic for the budget; found by itself where the accessor returns a characteristic as it is. */
  readonly name?: string;
}

/** Mean of one characteristic over a unit's keys, for its two targets, with the spread between keys. */
export interface UnitMean<S extends string> {
  /** Default target: the mean over all N alphabetic keys of this unit. */
  readonly mean: Measured<S>;
  /** These keys only: what was measured, without the keys that were not. */
  readonly theseKeys: Measured<S>;
  /** Standard deviation between keys, cleaned of repeatability, with the ends of its 95 % interval. */
  readonly betweenKeySd: Measured<S>;
  readonly betweenKeySdLower: Measured<S>;
  readonly betweenKeySdUpper: Measured<S>;
  /** Standard deviation of repeated cycles of one key, pooled over the keys. */
  readonly cycleSd: Measured<S>;
  /** n: keys that have the characteristic. */
  readonly measuredKeys: number;
}

/**
 * Mean of a characteristic over the keys of one unit (measurement model, section 2).
 *
 * For the default target u² = (1 - n/N) s²/n + (n/N) s_r²/(n c) + u_shared², for these keys only s_r²/(n c) + u_shared²,
 * where s² counts at least s_r²/c, since all keys cannot be known better than those that were measured,
 * with s the sd of the n key means (n - 1 degrees of freedom), s_r the sd of cycles pooled over the keys, c the harmonic
 * mean of the cycles used. Components that keys share (rig, report, smoothing) are averaged with their signs, so that they
 * do not divide by the square root of n; a key's own spacing of readings stays with that key.
 *
 * The unit-to-unit variation of the model is not in it, and the fixed choice of keys has no term here.
 *
 * @param keys of one session of one unit, keys without the characteristic are left out of n
 * @param accessor which characteristic, of a key as of a cycle: (key) => key.actuationForce
 * @throws RangeError on an unknown option, where N is not a whole number of at least n, keys come from more than one session, or the name of
 *   the characteristic is not given and cannot be found
 */
export function unitMean<S extends string>(
  keys: readonly KeyReduction[],
  accessor: (key: KeyCharacteristics) => Measured<S>,
  options: UnitMeanOptions,
): UnitMean<S> {
  checkOptions(options, ["alphabeticKeys", "name"], "unitMean");
  const { alphabeticKeys } = options;
  const all = keys.map((key) => ({ key, measured: accessor(key) }));
  const found = all.flatMap(({ key, measured }) => (isQuantity(measured) ? [{ key, quantity: measured }] : []));
  const n = found.length;
  if (!Number.isInteger(alphabeticKeys) || !(alphabeticKeys >= Math.max(1, n))) {
    throw new RangeError(`a unit of ${alphabeticKeys} alphabetic keys cannot have ${n} measured ones`);
  }
  const evidence = evidenceStep(
    `mean of ${n} key${n === 1 ? "" : "s"}`,
    all.map(({ measured }) => measured.evidence),
  );
  const first = found[0];
  if (first === undefined) return nothing(all[0]?.measured, evidence);
  const { symbol } = first.quantity;
  const path = `${sessionOf(found.map(({ quantity }) => quantity))}/${options.name ?? nameOf(first.key, accessor)}`;
  const values = found.map(({ quantity }) => quantity.value);
  const value = meanOf(values);
  const cycles = found.map(({ key }) => cycleValues(key, accessor));
  const scatter = pooledScatter(cycles);
  const c = n / cycles.reduce((total, list) => total + 1 / Math.max(1, list.length), 0);
  const noiseVariance = scatter === null ? 0 : scatter.variance / c;
  const spreadVariance = n > 1 ? varianceOf(values) : 0;
  const shared = sharedComponents(
    found.map(({ quantity }) => quantity),
    scatter === null,
  );
  const repeat = (share: number): readonly Component[] => {
    if (scatter === null) return [];
    const u = Math.sqrt((share * noiseVariance) / n);
    const source = observedSource(
      `${path}/cycles`,
      "Scatter of the cycles, pooled over the keys",
      u,
      symbol,
      scatter.dof,
    );
    return [{ source, contribution: u }];
  };
  const sampled = n / alphabeticKeys;
  const mean = ((): Measured<S> => {
    if (n === alphabeticKeys) return new Quantity(value, symbol, [...shared, ...repeat(1)], evidence);
    if (n < 2) return new Absent(symbol, "one key was measured, so the spread between keys is not known", evidence);
    const u = Math.sqrt(((1 - sampled) * Math.max(spreadVariance, noiseVariance)) / n);
    const label = `Keys not measured (${alphabeticKeys - n} of ${alphabeticKeys})`;
    const source = observedSource(`${path}/keys-not-measured`, label, u, symbol, n - 1);
    return new Quantity(value, symbol, [...shared, ...repeat(sampled), { source, contribution: u }], evidence);
  })();
  const theseKeys = new Quantity(value, symbol, [...shared, ...ownRepeat(path, symbol, repeat(1))], evidence);
  return {
    mean,
    theseKeys,
    ...betweenKeys(n, spreadVariance, noiseVariance, scatter, path, symbol, evidence),
    cycleSd: cycleSd(scatter, path, symbol, evidence),
    measuredKeys: n,
  };
}

/** The repeatability component under an id of its own, as its size differs from that of the default target. */
function ownRepeat(path: string, symbol: string, components: readonly Component[]): readonly Component[] {
  return components.map(({ source, contribution }) => ({
    source: { ...source, id: `${path}/cycles-of-these-keys`, symbol },
    contribution,
  }));
}

function nothing<S extends string>(measured: Measured<S> | undefined, evidence: Evidence): UnitMean<S> {
  if (measured === undefined) throw new RangeError("a unit's mean needs at least one key");
  const reason = measured.absent ? measured.reason : "no key has a value";
  const absent = new Absent(measured.symbol, reason, evidence);
  return {
    mean: absent,
    theseKeys: absent,
    betweenKeySd: absent,
    betweenKeySdLower: absent,
    betweenKeySdUpper: absent,
    cycleSd: absent,
    measuredKeys: 0,
  };
}

function cycleValues<S extends string>(
  key: KeyReduction,
  accessor: (key: KeyCharacteristics) => Measured<S>,
): readonly number[] {
  return key.cycles.flatMap((cycle) => {
    const measured = cycle.used ? accessor(cycle.characteristics) : null;
    return measured !== null && isQuantity(measured) ? [measured.value] : [];
  });
}

/** All keys together: the mean over the unit holds the restless keys too, so none is taken out. */
function pooledScatter(cycles: readonly (readonly number[])[]): Repeatability | null {
  const members = repeatability(cycles, { rejection: 0 });
  return members.find((each) => each !== null) ?? null;
}

/** Components of all but the keys' own scatter, averaged; with `withOwn`, that too (single cycles). */
function sharedComponents(quantities: readonly Quantity[], withOwn: boolean): readonly Component[] {
  return quantities.flatMap((quantity) =>
    quantity.components
      .filter(({ source }) => withOwn || !isOwnScatter(source.id))
      .map(({ source, contribution }) => ({ source, contribution: contribution / quantities.length })),
  );
}

function isOwnScatter(id: string): boolean {
  return id.startsWith("key/") && id.endsWith("/cycles");
}

/** `unit/u07/s2` from the ids of the keys' own sources. */
function sessionOf(quantities: readonly Quantity[]): string {
  const sessions = new Set<string>();
  for (const quantity of quantities) {
    for (const { source } of quantity.components) {
      const own = /^(?:key|stroke)\/([^/]+\/[^/]+)\//.exec(source.id);
      if (own) sessions.add(own[1]!);
    }
  }
  if (sessions.size > 1)
    throw new RangeError(`the keys come from ${[...sessions].join(" and ")}; a unit's mean needs one session`);
  return `unit/${[...sessions][0] ?? "without-scatter"}`;
}

function nameOf(key: KeyReduction, accessor: (key: KeyCharacteristics) => Measured): string {
  const measured = accessor(key);
  const name = characteristicNames.find((each) => key[each] === measured);
  if (name === undefined) {
    throw new RangeError(
      'this value of a key is computed, so give its name: unitMean(keys, accessor, { alphabeticKeys, name: "..." })',
    );
  }
  return name;
}

function betweenKeys<S extends string>(
  n: number,
  spreadVariance: number,
  noiseVariance: number,
  scatter: Repeatability | null,
  path: string,
  symbol: S,
  evidence: Evidence,
): Pick<UnitMean<S>, "betweenKeySd" | "betweenKeySdLower" | "betweenKeySdUpper"> {
  if (n < 2) {
    const absent = new Absent(symbol, "one key was measured, so the spread between keys is not known", evidence);
    return { betweenKeySd: absent, betweenKeySdLower: absent, betweenKeySdUpper: absent };
  }
  const dof = n - 1;
  const noise = scatter === null ? [] : [{ coefficient: -1, meanSquare: noiseVariance, dof: scatter.dof }];
  const component = modifiedLargeSampleKernel([{ coefficient: 1, meanSquare: spreadVariance, dof }, ...noise]);
  const { sd, lower, upper } = component;
  if (lower === null || upper === null) throw new TypeError("the procedure gives no interval for a difference");
  const varianceU = Math.sqrt((2 * spreadVariance ** 2) / dof + (scatter ? (2 * noiseVariance ** 2) / scatter.dof : 0));
  const u = sd > 0 ? Math.min(varianceU / (2 * sd), Math.sqrt(upper)) : Math.sqrt(upper) / 2;
  const source = observedSource(`${path}/between-keys`, "Few keys behind the standard deviation", u, symbol, dof);
  const step = evidenceStep("standard deviation between keys, cleaned of repeatability", [evidence]);
  const end = (variance95: number, which: string): Quantity<S> =>
    new Quantity(Math.sqrt(variance95), symbol, [], evidenceStep(`${which} end of its 95 % interval`, [step]));
  return {
    betweenKeySd: new Quantity(sd, symbol, [{ source, contribution: u }], step),
    betweenKeySdLower: end(lower, "lower"),
    betweenKeySdUpper: end(upper, "upper"),
  };
}

function cycleSd<S extends string>(
  scatter: Repeatability | null,
  path: string,
  symbol: S,
  evidence: Evidence,
): Measured<S> {
  if (scatter === null)
    return new Absent(symbol, "no key has two used cycles, so their scatter is not known", evidence);
  const sd = Math.sqrt(scatter.variance);
  const u = sd / Math.sqrt(2 * scatter.dof);
  const source = observedSource(`${path}/cycle-sd`, "Few cycles behind the standard deviation", u, symbol, scatter.dof);
  const step = evidenceStep("standard deviation of cycles, pooled over the keys", [evidence]);
  return new Quantity(sd, symbol, [{ source, contribution: u }], step);
}
