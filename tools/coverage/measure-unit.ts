import type { KeyCharacteristic, KeystrokeReduction } from "../../src/keystroke/index.js";
import {
  calibrationInForce,
  characteristicNames,
  reduceKeystroke,
  reductionContext,
  unitMean,
} from "../../src/keystroke/index.js";
import { choosePreTravel, reduceLatency } from "../../src/latency/index.js";
import { isQuantity } from "../../src/metrology/index.js";
import type { VerdictAtLimit } from "./verdict-at-limit.js";
import { verdictCharacteristics, verdictAtLimit } from "./verdict-at-limit.js";
import type { ChainName } from "../simulation/chains.js";
import { chains } from "../simulation/chains.js";
import type { BaseShapeName } from "../simulation/key-shape.js";
import { baseShapes } from "../simulation/key-shape.js";
import type { BrokenAssumption, SimulatedUnit } from "../simulation/simulate-unit.js";
import { simulateUnit } from "../simulation/simulate-unit.js";
import { intervalOf } from "./interval-of.js";
import type { Interval, Tally } from "./tally.js";
import { tallyOf } from "./tally.js";
import type { RowName } from "./targets.js";
import { latencyResults, rowKey } from "./targets.js";

/** What one simulated unit says about the stated uncertainties. */
export interface UnitOutcome {
  readonly shape: BaseShapeName;
  /** By line (`rowKey`): each entry one result against its truth. */
  readonly tallies: Readonly<Record<string, readonly Tally[]>>;
  /** The sd between keys: its truth over this unit's keys, and its interval; judged when all units are there. */
  readonly spreads: readonly Spread[];
  readonly verdicts: readonly VerdictAtLimit[];
}

export interface Spread {
  readonly characteristic: KeyCharacteristic;
  readonly truthSd: number | null;
  readonly interval: Interval | null;
}

const shapes = Object.keys(baseShapes) as BaseShapeName[];
const connections = Object.keys(chains) as ChainName[];

/** One in so many units of a shape has its components drawn too, which takes as long as all the rest. */
const drawnEvery = 4;

/** Seed of the index-th unit of a run. */
export function unitSeed(seed: number, index: number): number {
  return seed * 1_000_000 + index;
}

/**
 * Simulates, reduces and judges one unit. Shapes of key take turns, and so do connections, so that each has its part of
 * every run; all else is drawn anew from the seed.
 */
export function measureUnit(seed: number, index: number, broken: BrokenAssumption | null): UnitOutcome {
  const shape = shapes[index % shapes.length]!;
  const connection = connections[Math.floor(index / shapes.length) % connections.length]!;
  const unitsSeed = unitSeed(seed, index);
  const simulated = simulateUnit(unitsSeed, { shape, connections: [connection], ...(broken ? { broken } : {}) });
  const { unit, keystroke } = simulated;
  const reduction = reduceKeystroke(
    keystroke.strokes,
    reductionContext(unit, keystroke.session, keystroke.method, keystroke.rig),
  );
  const tallies: Record<string, Tally[]> = {};
  const note = (name: RowName, interval: Interval | null, truth: number | null): void =>
    void (tallies[rowKey(name)] ??= []).push(tallyOf(interval, truth));
  const isDrawn = Math.floor(index / shapes.length) % drawnEvery === 0;
  const drawSeed = isDrawn ? unitsSeed : null;
  const spreads = characteristicNames.map((name) => noteKeystroke(name, simulated, reduction, drawSeed, note));
  noteLatency(simulated, reduction, drawSeed, note);
  const verdicts = verdictCharacteristics.flatMap((name) => verdictAtLimit(name, simulated, reduction));
  return { shape, tallies, spreads, verdicts };
}

type Note = (name: RowName, interval: Interval | null, truth: number | null) => void;

function noteKeystroke(
  characteristic: KeyCharacteristic,
  { keystroke, unit, truth }: SimulatedUnit,
  reduction: KeystrokeReduction,
  drawSeed: number | null,
  note: Note,
): Spread {
  const keys = new Map(reduction.keys.map((key) => [key.key, key]));
  const names = keystroke.method.keys;
  const drawnKey = drawSeed === null ? null : names[drawSeed % names.length];
  const truths = names.map((key) => truth.keys.get(key)!.values[characteristic]);
  names.forEach((key, i) => {
    const measured = keys.get(key)?.[characteristic];
    const interval = measured === undefined ? null : intervalOf(measured, key === drawnKey ? drawSeed : null);
    note({ characteristic, target: "key" }, interval, truths[i]!);
  });
  const { mean, theseKeys, betweenKeySd, betweenKeySdLower, betweenKeySdUpper } = unitMean(
    reduction.keys,
    (key) => key[characteristic],
    { alphabeticKeys: unit.alphabeticKeys, name: characteristic },
  );
  const meanOfThese = truths.includes(null) ? null : truths.reduce((a, b) => a! + b!, 0)! / truths.length;
  note({ characteristic, target: "unit" }, intervalOf(mean, drawSeed), truth.mean.values[characteristic]);
  note({ characteristic, target: "these" }, intervalOf(theseKeys, drawSeed), meanOfThese);
  const hasSpread = isQuantity(betweenKeySd) && isQuantity(betweenKeySdLower) && isQuantity(betweenKeySdUpper);
  const spread: Interval | null = hasSpread
    ? {
        value: betweenKeySd.value,
        low: betweenKeySdLower.value,
        high: betweenKeySdUpper.value,
        boundedShare: 0,
        monteCarloHalfWidth: null,
      }
    : null;
  return { characteristic, truthSd: truth.betweenKeys[characteristic], interval: spread };
}

function noteLatency(
  { keystroke, latency, unit, truth }: SimulatedUnit,
  reduction: KeystrokeReduction,
  drawSeed: number | null,
  note: Note,
): void {
  if (latency === null) return;
  const { session, method, rig, readings } = latency;
  const pressed = readings.presses[0]!.key;
  const filmed = Object.keys(truth.latency);
  const measured = Object.fromEntries(reduction.keys.map((key) => [key.key, key.preTravel]));
  const others = Object.fromEntries(Object.entries(measured).filter(([key]) => key !== pressed));
  for (const [target, known] of [["connection", measured] as const, ["others", others] as const]) {
    const { connections: reduced } = reduceLatency(readings, {
      unit: unit.id,
      session: session.id,
      method,
      rig: { id: rig.id, calibration: calibrationInForce(rig, session.start) },
      settings: Object.fromEntries(filmed.map((name) => [name, session.connections[name]!])),
      refreshRate: session.refreshRate,
      pressInterval: session.pressInterval,
      pressIntervalJitter: session.pressIntervalJitter,
      nominalPlungerSpeed: session.pressSpeed,
      testerSpeed: keystroke.session.pressSpeed,
      preTravel: { [pressed]: choosePreTravel(pressed, known, { unit: unit.id }) },
    });
    for (const result of reduced) {
      const { latencyMs, latencyKeptMs, medianMs, p90Ms } = truth.latency[result.connection]!;
      const truths = { latency: latencyMs, latencyKept: latencyKeptMs, median: medianMs, p90: p90Ms };
      for (const name of latencyResults) {
        note({ characteristic: name, target }, intervalOf(result[name], drawSeed), truths[name]);
      }
    }
  }
}
