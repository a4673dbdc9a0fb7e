import { expect, test } from "vitest";
import type { CurveFlag, KeyReduction } from "../../src/keystroke/index.js";
import { reduceKeystroke } from "../../src/keystroke/index.js";
import type { ReductionContext } from "../../src/keystroke/index.js";
import type { Stroke } from "../../src/records/readings.js";
import {
  context,
  fineRecording,
  linearKey,
  method,
  pressForce,
  recordCycle,
  tactileKey,
  truthOf,
} from "./analytic-curve.js";

const one: ReductionContext = { ...context, method: { ...method, keys: ["KeyF"], cyclesUsed: [1] } };

/** Reduces one cycle whose contact was changed, by stroke and displacement (approach taken off). */
function reduced(
  contact: (closed: number, xMm: number, stroke: Stroke["stroke"], row: number) => number,
  options: { readonly key?: typeof linearKey; readonly context?: ReductionContext } = {},
): { readonly key: KeyReduction; readonly flags: readonly CurveFlag[] } {
  const strokes = recordCycle(options.key ?? linearKey, fineRecording).map((stroke) => ({
    ...stroke,
    contact: stroke.contact!.map((closed, row) => contact(closed, stroke.displacementMm[row]!, stroke.stroke, row)),
  }));
  const result = reduceKeystroke(strokes, options.context ?? one);
  return { key: result.keys[0]!, flags: result.flags };
}

const codes = (flags: readonly CurveFlag[]): readonly string[] => flags.map((flag) => flag.code);
const truth = truthOf(linearKey, method);
const value = (measured: KeyReduction["preTravel"] | KeyReduction["actuationForce"]): number => {
  if (measured.absent) throw new Error(measured.reason);
  return measured.value;
};

test("actuation lies midway between the last open and the first closed reading", () => {
  const { key, flags } = reduced((closed) => closed);
  expect(Math.abs(value(key.preTravel) - truth.preTravel)).toBeLessThan(0.008);
  expect(Math.abs(value(key.resetPoint) - truth.resetPoint)).toBeLessThan(0.008);
  expect(flags).toEqual([]);
});

test("bounce does not move the edge: the first change of the group counts, and the bounce is flagged", () => {
  const plain = reduced((closed) => closed);
  const bouncing = reduced((closed, x, stroke, row) => {
    const edge = stroke === "press" ? linearKey.actuationMm : linearKey.resetMm;
    const since = stroke === "press" ? x - edge : edge - x;
    return since > 0 && since < 0.025 && row % 2 === 1 ? 1 - closed : closed;
  });
  expect(Math.abs(value(bouncing.key.preTravel) - value(plain.key.preTravel))).toBeLessThan(0.011);
  expect(Math.abs(value(bouncing.key.resetPoint) - value(plain.key.resetPoint))).toBeLessThan(0.011);
  expect(codes(bouncing.flags)).toEqual(["contact_bounce", "contact_bounce"]);
});

test("a contact that closes and opens again on the way down is teasing; the lasting make counts", () => {
  const { key, flags } = reduced((closed, x, stroke) => (stroke === "press" && x > 1.2 && x < 1.3 ? 1 : closed));
  expect(Math.abs(value(key.preTravel) - truth.preTravel)).toBeLessThan(0.008);
  expect(codes(flags)).toEqual(["teasing"]);
  expect(flags[0]!.message).toMatch(/closes and opens again 0\.[67]\d\d mm before/);
});

test("a contact that is closed before the touch is early contact", () => {
  const glitch = reduced((closed, x, stroke) => (stroke === "press" && x < -0.1 ? 1 : closed));
  expect(codes(glitch.flags)).toEqual(["early_contact"]);
  expect(value(glitch.key.preTravel)).toBeCloseTo(truth.preTravel, 1);
  const always = reduced(() => 1);
  expect(codes(always.flags)).toContain("early_contact");
  expect(always.key.preTravel.absent && always.key.preTravel.reason).toMatch(/closed from the first reading on/);
});

test("a contact that never closes leaves everything about actuation absent, each with its reason", () => {
  const { key } = reduced(() => 0);
  for (const name of [
    "preTravel",
    "actuationForce",
    "operatingForce",
    "workToActuate",
    "differentialTravel",
  ] as const) {
    const measured = key[name];
    expect(measured.absent && measured.reason).toMatch(/the contact never closes/);
  }
  expect(key.resetPoint.absent && key.resetPoint.reason).toMatch(/open from the first reading on/);
  expect(key.totalTravel.absent).toBe(false);
});

test("without contact readings, and with contact source none, actuation is absent with its reason", () => {
  const strokes = recordCycle(linearKey, fineRecording).map((stroke) => ({ ...stroke, contact: null }));
  const missing = reduceKeystroke(strokes, one).keys[0]!;
  expect(missing.preTravel.absent && missing.preTravel.reason).toBe("the press has no contact readings");
  const none = reduced((closed) => closed, { context: { ...one, contactSource: "none" } });
  expect(none.key.actuationForce.absent && none.key.actuationForce.reason).toMatch(/contact source: none/);
});

test("actuation before the tactile peak is flagged as teasing, and the operating force is not applicable", () => {
  const early = { ...tactileKey, actuationMm: 0.5, resetMm: 0.4 };
  const { key, flags } = reduced((closed) => closed, { key: early });
  expect(codes(flags)).toContain("peak_after_actuation");
  expect(key.operatingForce.absent && key.operatingForce.reason).toMatch(/its peak lies after actuation/);
  expect(key.peakForce.absent).toBe(false);
});

test("the operating force is the largest force up to actuation: the peak, or the actuation force beyond it", () => {
  const before = reduced((closed) => closed, { key: tactileKey }).key;
  expect(value(before.operatingForce)).toBe(value(before.peakForce));
  const steep = { ...tactileKey, stiffness: 16, actuationMm: 3.6, resetMm: 3.4 };
  const late = reduced((closed) => closed, { key: steep }).key;
  expect(value(late.operatingForce)).toBe(value(late.actuationForce));
  expect(value(late.operatingForce)).toBeGreaterThan(value(late.peakForce));
  const linear = reduced((closed) => closed).key;
  expect(linear.operatingForce.absent && linear.operatingForce.reason).toMatch(/^not applicable: .*no local peak/);
  expect(linear.tactileRatio.absent && linear.tactileRatio.reason).toMatch(/no local peak of at least 3 cN/);
});

test("a fall of force just after the contact is not smeared into the actuation force", () => {
  const step = (x: number): number => (x > linearKey.actuationMm + 0.035 ? -6 : 0);
  const strokes = recordCycle(linearKey, { ...fineRecording, noiseCn: 0.02 }).map((stroke) => ({
    ...stroke,
    forceCn: stroke.forceCn.map((force, row) => force + step(stroke.displacementMm[row]!)),
  }));
  const key = reduceKeystroke(strokes, one).keys[0]!;
  expect(Math.abs(value(key.actuationForce) - pressForce(linearKey, linearKey.actuationMm))).toBeLessThan(0.15);
});

test("a report is late by latency x speed: 0 to 30 ms, deeper on the press and shallower on the release", () => {
  const speed = { ...context.pressSpeed!, value: 2 };
  const electrical = reduced((closed) => closed, { context: { ...one, pressSpeed: speed } }).key;
  const report = reduced((closed) => closed, { context: { ...one, pressSpeed: speed, contactSource: "report" } }).key;
  expect(value(electrical.preTravel) - value(report.preTravel)).toBeCloseTo(0.03, 9);
  expect(value(report.resetPoint) - value(electrical.resetPoint)).toBeCloseTo(0.03, 9);
  const share = (key: KeyReduction, name: "preTravel" | "resetPoint" | "differentialTravel"): number => {
    const measured = key[name];
    if (measured.absent) throw new Error(measured.reason);
    return measured.components.find((each) => /report-latency$/.test(each.source.id))?.contribution ?? 0;
  };
  const u = (2 * 30) / 1000 / Math.sqrt(12);
  expect(share(report, "preTravel")).toBeCloseTo(-u, 9);
  expect(share(report, "resetPoint")).toBeCloseTo(u, 9);
  expect(share(report, "differentialTravel")).toBeCloseTo(-2 * u, 9);
  expect(share(electrical, "preTravel")).toBe(0);
});
