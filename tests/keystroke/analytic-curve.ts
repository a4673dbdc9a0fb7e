import type { EvidenceRows } from "../../src/metrology/evidence.js";
import { seededRandom } from "../../src/metrology/random.js";
import type { KeystrokeMethod, Stated } from "../../src/records/archive.js";
import type { Stroke } from "../../src/records/readings.js";
import type { ReductionContext } from "../../src/keystroke/index.js";

/**
 * A key as formulas: force over displacement from the key's surface (mm), known exactly everywhere. Written for the tests
 * alone; the truths below are read off the formulas on a fine grid by the definitions, with no use of the code under test.
 */
export interface AnalyticKey {
  /** Force after the initial rise, cN, and the length of that rise (1/e), mm. */
  readonly preloadCn: number;
  readonly riseMm: number;
  readonly stiffness: number;
  /** A Gaussian bump; height 0 for a linear key. */
  readonly bump: { readonly atMm: number; readonly heightCn: number; readonly widthMm: number };
  readonly actuationMm: number;
  readonly resetMm: number;
  readonly bottomMm: number;
  /** Slope beyond bottom-out, cN/mm, and the length over which it sets in, mm (0: a corner). */
  readonly bottomSlope: number;
  readonly bottomSoftMm: number;
  /** Release force less press force between the ends, cN. */
  readonly lossCn: number;
  /** Displacement reached, from the surface, mm. */
  readonly deepestMm: number;
}

export const linearKey: AnalyticKey = {
  preloadCn: 35,
  riseMm: 0.03,
  stiffness: 8,
  bump: { atMm: 1, heightCn: 0, widthMm: 0.3 },
  actuationMm: 1.9,
  resetMm: 1.7,
  bottomMm: 3.8,
  bottomSlope: 900,
  bottomSoftMm: 0,
  lossCn: 5,
  deepestMm: 3.92,
};

export const tactileKey: AnalyticKey = {
  ...linearKey,
  preloadCn: 30,
  bump: { atMm: 0.9, heightCn: 25, widthMm: 0.35 },
};

export function pressForce(key: AnalyticKey, xMm: number): number {
  if (xMm <= 0) return 0;
  const rise = key.preloadCn * (1 - Math.exp(-xMm / key.riseMm));
  const bump = key.bump.heightCn * Math.exp(-(((xMm - key.bump.atMm) / key.bump.widthMm) ** 2));
  const beyond = (xMm - key.bottomMm) / Math.max(key.bottomSoftMm, 1e-9);
  const stop = key.bottomSoftMm > 0 ? key.bottomSoftMm * Math.log1p(Math.exp(Math.min(beyond, 500))) : Math.max(0, xMm - key.bottomMm); // prettier-ignore
  const flat = key.bump.heightCn * Math.exp(-((key.bump.atMm / key.bump.widthMm) ** 2)) * Math.exp(-xMm / key.riseMm);
  return rise + key.stiffness * xMm + bump - flat + (key.bottomSlope - key.stiffness) * stop;
}

export function releaseForce(key: AnalyticKey, xMm: number): number {
  const ramp = Math.min(1, Math.max(0, xMm) / 0.3, Math.max(0, key.deepestMm - xMm) / 0.1);
  return Math.max(0, pressForce(key, xMm) - key.lossCn * ramp);
}

export interface Truth {
  readonly touchMm: number;
  readonly bottomMm: number;
  readonly peakMm: number;
  readonly peakCn: number;
  readonly valleyMm: number;
  readonly valleyCn: number;
  readonly preTravel: number;
  readonly actuationForce: number;
  readonly resetPoint: number;
  readonly resetForce: number;
  readonly totalTravel: number;
  readonly bottomOutForce: number;
  readonly workToActuate: number;
  readonly workToBottom: number;
  readonly hysteresisLoss: number;
  readonly stiffness: number;
}

const fineMm = 0.0002;

/** Truths by the method's definitions, on a grid of 0.2 µm of the noise-free curve. */
export function truthOf(key: AnalyticKey, method: KeystrokeMethod): Truth {
  const count = Math.round(key.deepestMm / fineMm);
  const x = (i: number): number => i * fineMm;
  const force = Float64Array.from({ length: count + 1 }, (_, i) => pressForce(key, x(i)));
  const touch = force.findIndex((f) => f >= method.touchForce.value);
  let bottom = count;
  const limit = method.bottomOutSlope.value;
  for (let i = count - 1; i > 0; i--) {
    if ((force[i + 1]! - force[i - 1]!) / (2 * fineMm) < limit) {
      bottom = i;
      break;
    }
  }
  let highest = touch;
  let peak = touch;
  let valley = touch;
  for (let i = touch; i <= bottom; i++) {
    if (force[i]! > force[highest]!) highest = i;
    if (force[highest]! - force[i]! > force[peak]! - force[valley]!) {
      peak = highest;
      valley = i;
    }
  }
  const back = Float64Array.from({ length: bottom + 1 }, (_, i) => releaseForce(key, x(i)));
  const area = (from: number, to: number, of: Float64Array): number => {
    let total = 0;
    for (let i = from; i < to; i++) total += ((of[i]! + of[i + 1]!) / 2) * fineMm;
    return total / 100;
  };
  const make = Math.round(key.actuationMm / fineMm);
  return {
    touchMm: x(touch),
    bottomMm: x(bottom),
    peakMm: x(peak) - x(touch),
    peakCn: force[peak]!,
    valleyMm: x(valley) - x(touch),
    valleyCn: force[valley]!,
    preTravel: key.actuationMm - x(touch),
    actuationForce: pressForce(key, key.actuationMm),
    resetPoint: key.resetMm - x(touch),
    resetForce: releaseForce(key, key.resetMm),
    totalTravel: x(bottom) - x(touch),
    bottomOutForce: force[bottom]!,
    workToActuate: area(touch, make, force),
    workToBottom: area(touch, bottom, force),
    hysteresisLoss: area(touch, bottom, force) - area(touch, bottom, back),
    stiffness: key.stiffness,
  };
}

export interface Recording {
  /** Distance of rows, mm, and the resolution to which each channel is rounded (0: not rounded). */
  readonly spacingMm: number;
  readonly displacementStepMm: number;
  readonly forceStepCn: number;
  readonly noiseCn: number;
  /** Free way before the key, mm. */
  readonly approachMm: number;
  /** Added to every displacement. */
  readonly shiftMm: number;
  readonly seed: number;
}

export const fineRecording: Recording = {
  spacingMm: 0.01,
  displacementStepMm: 0.001,
  forceStepCn: 0.01,
  noiseCn: 0.1,
  approachMm: 0.2,
  shiftMm: 0,
  seed: 1,
};

const evidence = (line: number): EvidenceRows => ({
  kind: "rows",
  file: "units/u01/s1/force.csv",
  firstLine: line,
  lastLine: line,
  columns: ["displacement_mm", "force_cN", "contact"],
});

/** Both strokes of one cycle as a tester would record them; the contact follows the plunger exactly. */
export function recordCycle(key: AnalyticKey, recording: Recording, name = "KeyF", cycle = 1): readonly Stroke[] {
  const { spacingMm, approachMm, shiftMm, noiseCn } = recording;
  const random = seededRandom(recording.seed);
  // The first numbers of neighbouring seeds are alike.
  for (let i = 0; i < 20; i++) random.uniform();
  const phase = random.uniform() * spacingMm;
  const rows = Math.floor((approachMm + key.deepestMm - phase) / spacingMm) + 1;
  const down = Array.from({ length: rows }, (_, i) => phase - approachMm + i * spacingMm);
  const rounded = (value: number, step: number): number => (step > 0 ? Math.round(value / step) * step : value);
  const stroke = (kind: "press" | "release", places: readonly number[]): Stroke => ({
    key: name,
    cycle,
    stroke: kind,
    displacementMm: Float64Array.from(places, (x) => rounded(x + shiftMm, recording.displacementStepMm)),
    forceCn: Float64Array.from(places, (x) =>
      rounded(
        (kind === "press" ? pressForce : releaseForce)(key, x) + noiseCn * random.normal(),
        recording.forceStepCn,
      ),
    ),
    contact: Uint8Array.from(places, (x) => (x >= (kind === "press" ? key.actuationMm : key.resetMm) ? 1 : 0)),
    displacementStepMm: recording.displacementStepMm,
    forceStepCn: recording.forceStepCn,
    evidence: evidence(2 * cycle + (kind === "press" ? 0 : 1)),
  });
  return [stroke("press", down), stroke("release", [...down].reverse())];
}

const stated = <S extends string>(value: number, symbol: S): Stated<S> => ({ value, symbol, evidence: evidence(1) });

export const method: KeystrokeMethod = {
  kind: "keystroke",
  id: "keystroke@2",
  title: "Force-displacement of eight keys",
  since: "2026-01-01",
  notes: [],
  file: "methods/keystroke-2.yaml",
  evidence: evidence(1),
  keys: ["KeyA", "KeyE", "KeyF", "KeyI", "KeyN", "KeyP", "KeyT", "KeyZ"],
  minKeys: 1,
  conditioningStrokes: 5,
  cycles: 3,
  cyclesUsed: [1, 2, 3],
  pressSpeed: stated(0.5, "mm/s"),
  smoothingWindow: stated(0.12, "mm"),
  prominence: stated(3, "cN"),
  bottomOutSlope: stated(300, "cN/mm"),
  touchDeviations: 6,
  touchForce: stated(1, "cN"),
};

export const context: ReductionContext = {
  unit: "u01",
  session: "s1",
  method,
  rig: { id: "tester-1", calibration: null },
  contactSource: "electrical",
  pressSpeed: stated(0.5, "mm/s"),
  exclusions: [],
};

/** A context whose rig states the given terms: name to [value, u, symbol]. */
export function withCalibration(
  terms: Readonly<Record<string, readonly [value: number, u: number, symbol: string]>>,
): ReductionContext {
  const calibration = {
    date: "2025-11-03",
    evidence: evidence(1),
    terms: Object.fromEntries(
      Object.entries(terms).map(([name, [value, u, symbol]]) => [
        name,
        { value: stated(value, symbol), u: stated(u, symbol), distribution: "normal" as const },
      ]),
    ),
  };
  return { ...context, rig: { id: "tester-1", calibration } };
}
