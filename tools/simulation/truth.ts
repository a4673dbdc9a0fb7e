import type { KeystrokeMethod } from "../../src/records/archive.js";
import type { KeyCharacteristic } from "../../src/keystroke/model.js";
import type { KeyCurve } from "./key-curve.js";

/** What a method's definitions need to be applied to a curve. */
export interface Definition {
  /** Touch: the press force first reaches this. */
  readonly touchForceCn: number;
  /** A local peak counts from this prominence. */
  readonly prominenceCn: number;
  /** Bottom-out: the slope first exceeds this and stays above. */
  readonly bottomOutSlopeCnPerMm: number;
  /** Stiffness: the straight part ends this far before bottom-out, by one smoothing window. */
  readonly windowMm: number;
}

/** The definition that a keystroke method states; its smoothing is an instrument and smooths nothing here. */
export function definitionOf(method: KeystrokeMethod): Definition {
  return {
    touchForceCn: method.touchForce.value,
    prominenceCn: method.prominence.value,
    bottomOutSlopeCnPerMm: method.bottomOutSlope.value,
    windowMm: method.smoothingWindow.value,
  };
}

/** A definition for where no method is at hand: that of `keystroke@2`. */
export const usualDefinition: Definition = {
  touchForceCn: 1,
  prominenceCn: 3,
  bottomOutSlopeCnPerMm: 300,
  windowMm: 0.12,
};

/** True value of each characteristic, in its symbol; null where the definition gives none. */
export type CharacteristicTruth = Readonly<Record<KeyCharacteristic, number | null>>;

/** Truths of one curve, with the absolute slope of the force at the point of each force, in cN/mm. */
export interface CurveTruth {
  readonly values: CharacteristicTruth;
  readonly slopes: Readonly<Partial<Record<KeyCharacteristic, number>>>;
}

/** Grid on which features are looked for, and on which areas are summed. */
const gridMm = 0.005;

/** Where `holds` turns from false at `low` to true at `high` (or the other way round), by bisection to 1e-9 mm. */
function turningPoint(holds: (x: number) => boolean, low: number, high: number): number {
  const atLow = holds(low);
  let [a, b] = [low, high];
  while (b - a > 1e-9) {
    const middle = (a + b) / 2;
    if (holds(middle) === atLow) a = middle;
    else b = middle;
  }
  return (a + b) / 2;
}

/** Position of the largest value of `f` within [low, high], where it has one maximum there, by golden section. */
function summit(f: (x: number) => number, low: number, high: number): number {
  const ratio = (Math.sqrt(5) - 1) / 2;
  let [a, b] = [low, high];
  while (b - a > 1e-7) {
    const [c, d] = [b - ratio * (b - a), a + ratio * (b - a)];
    if (f(c) > f(d)) b = d;
    else a = c;
  }
  return (a + b) / 2;
}

/** Area under f from a to b by Simpson's rule on a grid of at most `gridMm`. */
function area(f: (x: number) => number, a: number, b: number): number {
  const pairs = Math.max(4, Math.ceil((b - a) / (2 * gridMm)));
  const h = (b - a) / (2 * pairs);
  let total = f(a) + f(b);
  for (let i = 1; i < 2 * pairs; i++) total += (i % 2 === 1 ? 4 : 2) * f(a + i * h);
  return (total * h) / 3;
}

const slopeAt = (f: (x: number) => number, x: number): number => (f(x + 2e-5) - f(x - 2e-5)) / 4e-5;

interface Peak {
  readonly atMm: number;
  readonly valleyMm: number;
  readonly prominenceCn: number;
}

/** Local maxima between touch and bottom-out, each with the lowest point behind it and its topographic prominence. */
function peaksOf(f: (x: number) => number, touch: number, bottom: number): readonly Peak[] {
  const n = Math.ceil((bottom - touch) / gridMm);
  const at = (i: number): number => touch + ((bottom - touch) * i) / n;
  const force = Array.from({ length: n + 1 }, (_, i) => f(at(i)));
  const peaks: Peak[] = [];
  for (let i = 1; i < n; i++) {
    if (!(force[i]! > force[i - 1]! && force[i]! >= force[i + 1]!)) continue;
    const atMm = summit(f, at(i - 1), at(i + 1));
    const top = f(atMm);
    let left = top;
    for (let j = i - 1; j >= 0 && force[j]! <= top; j--) left = Math.min(left, force[j]!);
    let right = top;
    let lowest = i;
    for (let j = i + 1; j <= n && force[j]! <= top; j++) {
      if (force[j]! < right) {
        right = force[j]!;
        lowest = j;
      }
    }
    const valleyMm = lowest === i ? atMm : summit((x) => -f(x), at(lowest - 1), at(Math.min(lowest + 1, n)));
    peaks.push({ atMm, valleyMm, prominenceCn: top - Math.max(left, lowest === i ? top : f(valleyMm)) });
  }
  return peaks;
}

/** Slope of the straight line that fits the press best (least squares) from a to b. */
function fittedSlope(f: (x: number) => number, a: number, b: number): number {
  const n = Math.ceil((b - a) / gridMm);
  const middle = (a + b) / 2;
  let top = 0;
  let below = 0;
  for (let i = 0; i <= n; i++) {
    const x = a + ((b - a) * i) / n - middle;
    top += x * f(x + middle);
    below += x * x;
  }
  return top / below;
}

/**
 * What the method's definitions give on a curve without noise (measurement model, section 3), found by search on a dense
 * grid and bisection; knows nothing of the numbers that the curve was made from, nor of the reduction under test.
 *
 * Positions count from touch. The tactile peak is the highest local peak of the method's prominence between touch and
 * bottom-out; its valley is the lowest point before the press is as high again. Stiffness is the slope of the
 * least-squares line over the second half of the way from touch (behind a bump: from the valley) to bottom-out, less one
 * window before it. The loop area runs from touch to bottom-out.
 *
 * @throws RangeError where the curve never reaches the touch force or never bottoms out
 */
export function truthOf(curve: KeyCurve, definition: Definition): CurveTruth {
  const { pressCn: press, releaseCn: release, deepestMm } = curve;
  const reaches = (x: number): boolean => press(x) >= definition.touchForceCn;
  let x = 0;
  while (x < deepestMm && !reaches(x)) x += gridMm;
  if (!reaches(x)) throw new RangeError(`the press never reaches ${definition.touchForceCn} cN`);
  const touch = turningPoint(reaches, Math.max(0, x - gridMm), x);

  const steep = (at: number): boolean => slopeAt(press, at) > definition.bottomOutSlopeCnPerMm;
  x = deepestMm;
  if (!steep(x)) throw new RangeError(`the press ends at a slope below ${definition.bottomOutSlopeCnPerMm} cN/mm`);
  while (steep(x)) x -= gridMm;
  const bottom = turningPoint(steep, x, x + gridMm);

  x = 0;
  while (x < deepestMm && !curve.closedOnPress(x)) x += gridMm;
  const make = curve.closedOnPress(x) ? turningPoint(curve.closedOnPress, x - gridMm, x) : null;
  x = deepestMm;
  while (x > 0 && curve.closedOnRelease(x)) x -= gridMm;
  const opens = curve.closedOnRelease(deepestMm) && !curve.closedOnRelease(Math.max(x, 0));
  const reset = opens ? turningPoint(curve.closedOnRelease, x, x + gridMm) : null;

  const peaks = peaksOf(press, touch, bottom).filter((p) => p.prominenceCn >= definition.prominenceCn);
  const peak = peaks.reduce<Peak | null>((best, p) => (best && press(best.atMm) >= press(p.atMm) ? best : p), null);
  const before = make === null ? [] : peaks.filter((p) => p.atMm <= make);
  const operating = before.length === 0 ? null : Math.max(...before.map((p) => press(p.atMm)), press(make!));

  const start = peak ? peak.valleyMm : touch;
  const straight = (bottom - start) / 2 - definition.windowMm;
  const [peakCn, valleyCn] = peak ? [press(peak.atMm), press(peak.valleyMm)] : [null, null];
  const millijoules = (f: (x: number) => number, a: number, b: number): number => area(f, a, b) * 0.01;
  const slope = (f: (x: number) => number, at: number | null): number => (at === null ? 0 : Math.abs(slopeAt(f, at)));
  const workToBottom = millijoules(press, touch, bottom);
  return {
    values: {
      preTravel: make === null ? null : make - touch,
      actuationForce: make === null ? null : press(make),
      operatingForce: operating,
      peakPosition: peak ? peak.atMm - touch : null,
      peakForce: peakCn,
      valleyPosition: peak ? peak.valleyMm - touch : null,
      valleyForce: valleyCn,
      tactileRatio: peakCn === null || valleyCn === null ? null : (peakCn - valleyCn) / peakCn,
      resetPoint: reset === null ? null : reset - touch,
      resetForce: reset === null ? null : release(reset),
      differentialTravel: make === null || reset === null ? null : make - reset,
      totalTravel: bottom - touch,
      bottomOutForce: press(bottom),
      stiffness: straight > 0 ? fittedSlope(press, (start + bottom) / 2, bottom - definition.windowMm) : null,
      workToActuate: make === null ? null : millijoules(press, touch, make),
      workToBottom,
      hysteresisLoss: workToBottom - millijoules(release, touch, bottom),
    },
    slopes: {
      actuationForce: slope(press, make),
      operatingForce: operating !== null && operating === press(make!) ? slope(press, make) : 0,
      peakForce: 0,
      valleyForce: 0,
      resetForce: slope(release, reset),
      bottomOutForce: slope(press, bottom),
    },
  };
}

/** The mean of several truths of one key, such as its used cycles; null where any is null. */
export function meanTruth(truths: readonly CurveTruth[]): CurveTruth {
  const first = truths[0];
  if (first === undefined) throw new RangeError("the mean of no truths is not defined");
  const names = Object.keys(first.values) as KeyCharacteristic[];
  const mean = (pick: (t: CurveTruth) => number | null | undefined): number | null => {
    const all = truths.map(pick);
    return all.some((v) => v === null || v === undefined)
      ? null
      : (all as number[]).reduce((a, b) => a + b, 0) / all.length;
  };
  return {
    values: Object.fromEntries(names.map((n) => [n, mean((t) => t.values[n])])) as CharacteristicTruth,
    slopes: Object.fromEntries(
      (Object.keys(first.slopes) as KeyCharacteristic[]).map((n) => [n, mean((t) => t.slopes[n]) ?? 0]),
    ),
  };
}
