import { expect, test } from "vitest";
import type { KeyCharacteristic, KeyReduction, ReductionContext } from "../../src/keystroke/index.js";
import { calibrationInForce, characteristicNames, keystrokes, reduceKeystroke } from "../../src/keystroke/index.js";
import { difference, evidenceLeaves, isQuantity } from "../../src/metrology/index.js";
import type { Quantity } from "../../src/metrology/index.js";
import type { Stroke } from "../../src/records/readings.js";
import type { AnalyticKey } from "./analytic-curve.js";
import {
  context,
  fineRecording,
  linearKey,
  method,
  recordCycle,
  tactileKey,
  withCalibration,
} from "./analytic-curve.js";

const keyNames = ["KeyA", "KeyE", "KeyF", "KeyI"];
const four: ReductionContext = { ...context, method: { ...method, keys: keyNames } };

function session(base: AnalyticKey = tactileKey, cycles = 3, seed = 1): readonly Stroke[] {
  return keyNames.flatMap((name, k) =>
    Array.from({ length: cycles }, (_, i) => {
      const key = { ...base, preloadCn: base.preloadCn + k, actuationMm: base.actuationMm + 0.01 * k };
      return recordCycle(key, { ...fineRecording, seed: seed + 17 * k + i }, name, i + 1);
    }).flat(),
  );
}

function quantity(key: KeyReduction, name: KeyCharacteristic): Quantity {
  const measured = key[name];
  if (!isQuantity(measured)) throw new Error(`${name}: ${measured.reason}`);
  return measured;
}

const contribution = (of: Quantity, id: RegExp): number =>
  of.components.filter((each) => id.test(each.source.id)).reduce((total, each) => total + each.contribution, 0);

test("a full session gives every characteristic of every key, in the method's order, without a flag", () => {
  const result = reduceKeystroke([...session()].reverse(), four);
  expect(keystrokes(result).map((key) => key.key)).toEqual(keyNames);
  expect(result.missingKeys).toEqual([]);
  expect(result.flags).toEqual([]);
  for (const key of result.keys) {
    for (const name of characteristicNames) expect(quantity(key, name).u).toBeGreaterThan(0);
    expect(key.curveKind).toBe("tactile");
    expect(key.cycles.map((cycle) => cycle.cycle)).toEqual([1, 2, 3]);
  }
  expect(keyNames).toContain(result.representativeKey);
});

test("a key's value is the mean of its used cycles", () => {
  for (const key of reduceKeystroke(session(), four).keys) {
    for (const name of characteristicNames) {
      const cycles = key.cycles.map((cycle) => (cycle.characteristics[name] as Quantity).value);
      expect(quantity(key, name).value).toBeCloseTo(cycles.reduce((a, b) => a + b, 0) / 3, 10);
    }
  }
});

test("the evidence of a value leads to its strokes, the method and the calibration, each once", () => {
  const calibrated = { ...withCalibration({ forceSpan: [1, 0.003, "1"] }), method: four.method };
  const key = reduceKeystroke(session(), calibrated).keys[0]!;
  const leaves = evidenceLeaves(quantity(key, "actuationForce").evidence);
  expect(new Set(leaves).size).toBe(leaves.length);
  expect(leaves.filter((leaf) => leaf.columns.includes("contact") && leaf.firstLine > 1)).toHaveLength(6);
});

test("the scatter of cycles is pooled over the keys, with one block of degrees of freedom", () => {
  const key = reduceKeystroke(session(), four).keys[1]!;
  const own = quantity(key, "preTravel").components.find(
    (each) => each.source.id === "key/u01/s1/KeyE/preTravel/cycles",
  )!;
  expect(own.source.dof).toBe(8);
  expect(own.source.block).toBe("session/u01/s1/repeatability/preTravel");
  expect(own.source.label).toBe("Scatter of the cycles, pooled over 4 keys");
});

test("one cycle a key leaves the components of the single stroke", () => {
  const single = { ...four, method: { ...four.method, cyclesUsed: [1] } };
  const key = reduceKeystroke(session(tactileKey, 1), single).keys[0]!;
  const ids = quantity(key, "preTravel").components.map((each) => each.source.id);
  expect(ids).toContain("stroke/u01/s1/KeyA/1/touch-noise");
  expect(ids).toContain("stroke/u01/s1/KeyA/1/make");
  expect(ids.some((id) => id.endsWith("/cycles"))).toBe(false);
});

test("an excluded cycle is reduced, shown and not used, with the reason", () => {
  const evidence = method.evidence;
  const exclusions = [{ key: "KeyE", cycle: 2, reason: "the probe slipped off the keycap", evidence }];
  const result = reduceKeystroke(session(), { ...four, exclusions });
  const key = result.keys[1]!;
  expect(key.cycles[1]).toMatchObject({ used: false, reason: "excluded by hand: the probe slipped off the keycap" });
  expect(key.cycles[1]!.characteristics.preTravel.absent).toBe(false);
  const used = [key.cycles[0]!, key.cycles[2]!].map((cycle) => (cycle.characteristics.preTravel as Quantity).value);
  expect(quantity(key, "preTravel").value).toBeCloseTo((used[0]! + used[1]!) / 2, 10);
  expect(result.flags.map((flag) => flag.code)).toEqual(["few_cycles"]);
  const note = key.evidence.kind === "step" ? key.evidence.note : "";
  expect(note).toMatch(/cycle 2 not used: excluded by hand/);
});

test("cycles that the method does not count are shown and not used", () => {
  const last = { ...four, method: { ...four.method, cyclesUsed: [2, 3] } };
  const key = reduceKeystroke(session(), last).keys[0]!;
  expect(key.cycles.map((cycle) => cycle.reason)).toEqual(["the method uses cycles 2, 3", "", ""]);
});

test("keys without strokes are missing, keys that the method does not name are flagged", () => {
  const wider = { ...context, method: { ...method, keys: ["KeyF", "KeyQ"], minKeys: 2 } };
  const result = reduceKeystroke(session(), wider);
  expect(result.keys.map((key) => key.key)).toEqual(["KeyF"]);
  expect(result.missingKeys).toEqual(["KeyQ"]);
  expect(result.flags.map((flag) => flag.code)).toEqual(["few_keys", "extra_key", "extra_key", "extra_key"]);
});

test("the rig's terms correct each value and are in each budget", () => {
  const plain = reduceKeystroke(session(), four).keys[0]!;
  const corrected = reduceKeystroke(session(), {
    ...withCalibration({
      forceSpan: [1.02, 0.003, "1"],
      forceZero: [-0.5, 0.15, "cN"],
      displacementScale: [1.001, 0.001, "1"],
      compliance: [0.0001, 0.00002, "mm/cN"],
    }),
    method: four.method,
  }).keys[0]!;
  const force = quantity(corrected, "actuationForce");
  expect(force.value).toBeCloseTo(quantity(plain, "actuationForce").value * 1.02 - 0.5, 1);
  expect(contribution(force, /force-span$/)).toBeCloseTo(quantity(plain, "actuationForce").value * 0.003, 2);
  expect(contribution(force, /force-zero$/)).toBeCloseTo(0.15, 6);
  const travel = quantity(corrected, "totalTravel");
  const bottomCn = quantity(corrected, "bottomOutForce").value;
  expect(travel.value).toBeCloseTo(quantity(plain, "totalTravel").value * 1.001 - 0.0001 * (bottomCn - 0.5), 2);
  expect(contribution(travel, /displacement-scale$/)).toBeCloseTo(travel.value * 0.001, 5);
  expect(contribution(travel, /compliance$/)).toBeCloseTo(-0.00002 * (bottomCn - 0.5), 5);
  const ratio = quantity(corrected, "tactileRatio");
  expect(contribution(ratio, /force-span$/)).toBe(0);
  expect(contribution(ratio, /force-zero$/)).toBeLessThan(0);
});

test("what one rig does to two units cancels in their difference under one calibration, and not across two", () => {
  const rig = withCalibration({ forceZero: [0, 0.5, "cN"] });
  const reduce = (unit: string, date: string): Quantity => {
    const calibration = { ...rig.rig.calibration!, date };
    const own = { ...rig, unit, method: four.method, rig: { ...rig.rig, calibration } };
    return quantity(reduceKeystroke(session(tactileKey, 3, unit === "u01" ? 1 : 500), own).keys[0]!, "actuationForce");
  };
  const zero = /force-zero$/;
  expect(contribution(difference(reduce("u01", "2025-11-03"), reduce("u02", "2025-11-03")), zero)).toBeCloseTo(0, 12);
  const apart = difference(reduce("u01", "2025-11-03"), reduce("u02", "2026-05-03"));
  expect(apart.components.filter((each) => zero.test(each.source.id))).toHaveLength(2);
});

test("numbers of a calibration that cannot be used are refused with their name", () => {
  expect(() => reduceKeystroke(session(), withCalibration({ forceSpan: [0, 0.003, "1"] }))).toThrow(/forceSpan of rig/);
  expect(() => reduceKeystroke(session(), withCalibration({ compliance: [0.1, 0.1, "mm"] }))).toThrow(
    /must be in mm\/cN/,
  );
});

test("the calibration in force is the latest one that has begun", () => {
  const at = (date: string): never => ({ date }) as never;
  const rig = { calibrations: [at("2025-01-01"), at("2026-01-01"), at("2025-06-01")] };
  expect(calibrationInForce(rig, "2025-12-31T10:00:00Z")!.date).toBe("2025-06-01");
  expect(calibrationInForce(rig, "2026-01-01T00:00:00Z")!.date).toBe("2026-01-01");
  expect(calibrationInForce(rig, "2024-12-31")).toBeNull();
});

test("another press speed than the method's is flagged, and none stated too", () => {
  const fast = reduceKeystroke(session(), { ...four, pressSpeed: { ...context.pressSpeed!, value: 5 } });
  expect(fast.flags[0]).toMatchObject({ code: "press_speed", key: "", cycle: 0 });
  expect(fast.flags[0]!.message).toMatch(/5 mm\/s where the method asks for 0\.5 mm\/s/);
  expect(reduceKeystroke(session(), { ...four, pressSpeed: undefined }).flags[0]!.code).toBe("press_speed");
});

test("a description that disagrees with the curve is flagged; clicky counts as tactile", () => {
  const flagged = (kind: "linear" | "tactile" | "clicky", base: AnalyticKey): readonly string[] =>
    reduceKeystroke(session(base), { ...four, describedKind: kind }).flags.map((flag) => flag.code);
  expect(flagged("linear", tactileKey)).toEqual(Array(4).fill("kind_mismatch"));
  expect(flagged("clicky", linearKey)).toEqual(Array(4).fill("kind_mismatch"));
  expect(flagged("clicky", tactileKey)).toEqual([]);
  expect(flagged("linear", linearKey)).toEqual([]);
});

test("a bump at the limit of the prominence leaves the kind undecided", () => {
  const faint = { ...linearKey, stiffness: 0.5, bump: { atMm: 0.8, heightCn: 3.35, widthMm: 0.35 } };
  const kinds = reduceKeystroke(session(faint), four).keys.map((key) => [key.curveKind, key.prominence]);
  expect(kinds.some(([kind]) => kind === "undecided")).toBe(true);
});

test("a missing release leaves reset, differential travel and loss absent, and is flagged", () => {
  const presses = session().filter((stroke) => stroke.stroke === "press");
  const { keys, flags } = reduceKeystroke(presses, four);
  for (const name of ["resetPoint", "resetForce", "differentialTravel", "hysteresisLoss"] as const) {
    const measured = keys[0]![name];
    expect(measured.absent && measured.reason).toBe("no release stroke was recorded");
  }
  expect(keys[0]!.preTravel.absent).toBe(false);
  expect(flags).toHaveLength(12);
  expect(flags.every((flag) => flag.code === "missing_release")).toBe(true);
});

test("saturation, a coarse step, a slip, a lifted zero and noise are flagged", () => {
  const codesOf = (change: (stroke: Stroke) => Stroke): readonly string[] => {
    const strokes = recordCycle(linearKey, { ...fineRecording, noiseCn: 0.02 }).map(change);
    const alone = { ...context, method: { ...method, keys: ["KeyF"], cyclesUsed: [1] } };
    return reduceKeystroke(strokes, alone).flags.map((flag) => flag.code);
  };
  const forces =
    (change: (force: number, x: number) => number) =>
    (stroke: Stroke): Stroke => ({
      ...stroke,
      forceCn: stroke.forceCn.map((force, i) => change(force, stroke.displacementMm[i]!)),
    });
  expect(codesOf((stroke) => stroke)).toEqual([]);
  expect(codesOf(forces((force) => Math.min(force, 110)))).toContain("saturation");
  expect(codesOf(forces((force) => force + 3))).toEqual(["zero_offset"]);
  expect(codesOf(forces((force, x) => (x > 1.2 && x < 1.22 ? force - 8 : force)))).toEqual(["slip"]);
  const every = (stroke: Stroke, n: number): Stroke => ({
    ...stroke,
    displacementMm: stroke.displacementMm.filter((_, i) => i % n === 0),
    forceCn: stroke.forceCn.filter((_, i) => i % n === 0),
    contact: stroke.contact!.filter((_, i) => i % n === 0),
  });
  expect(codesOf((stroke) => every(stroke, 4))).toContain("coarse_step");
  const noisy = recordCycle(linearKey, { ...fineRecording, noiseCn: 0.8 });
  const alone = { ...context, method: { ...method, keys: ["KeyF"], cyclesUsed: [1] } };
  expect(reduceKeystroke(noisy, alone).flags.map((flag) => flag.code)).toContain("noise");
});

test("a stroke recorded twice is used once and flagged", () => {
  const strokes = session();
  const result = reduceKeystroke([...strokes, strokes[0]!], four);
  expect(result.flags.map((flag) => flag.code)).toEqual(["surplus_stroke"]);
});

test("the median cycle and the representative key are real ones: the medoids", () => {
  const strokes = session(tactileKey, 3).map((stroke) =>
    stroke.key === "KeyE" && stroke.cycle === 1 ? { ...stroke, forceCn: stroke.forceCn.map((f) => 1.2 * f) } : stroke,
  );
  const result = reduceKeystroke(strokes, four);
  expect(result.keys[1]!.medianCycle).not.toBe(1);
  expect(["KeyE", "KeyF"]).toContain(result.representativeKey);
});

test("the drawn curve starts at touch, keeps within 0.1 cN or 0.002 mm of the rows, and has a few hundred points at most", () => {
  const key = reduceKeystroke(session(), four).keys[0]!;
  const { press, release } = key.cycles[0]!.curve;
  expect(press.length).toBeLessThanOrEqual(240);
  expect(release.length).toBeLessThanOrEqual(240);
  expect(press[0]![0]).toBeLessThan(0);
  const rows = session()[0]!;
  const shift = press[0]![0] - rows.displacementMm[0]!;
  rows.displacementMm.forEach((x, i) => {
    const at = x + shift;
    const after = press.findIndex(([px]) => px >= at - 1e-9);
    const [b, a] = [press[after]!, press[Math.max(0, after - 1)]!];
    const share = b[0] > a[0] ? (at - a[0]) / (b[0] - a[0]) : 1;
    const miss = Math.abs(a[1] + share * (b[1] - a[1]) - rows.forceCn[i]!);
    const slope = b[0] > a[0] ? Math.abs((b[1] - a[1]) / (b[0] - a[0])) : 0;
    expect(miss).toBeLessThan(0.11 + 0.0025 * slope);
  });
});

test("a session of 8 keys, 3 cycles, two strokes of 450 rows is reduced in well under 150 ms", () => {
  const strokes = method.keys.flatMap(
    (name, k) =>
    [1, 2, 3].flatMap((cycle) => recordCycle(tactileKey, { ...fineRecording, approachMm: 0.55, seed: 10 * k + cycle }, name, cycle)), // prettier-ignore
  );
  const rows = strokes.reduce((total, stroke) => total + stroke.displacementMm.length, 0);
  const times = Array.from({ length: 9 }, () => {
    const start = performance.now();
    reduceKeystroke(strokes, context);
    return performance.now() - start;
  }).sort((a, b) => a - b);
  console.log(
    `${strokes.length} strokes, ${rows} rows: best ${times[0]!.toFixed(1)} ms, median ${times[4]!.toFixed(1)} ms`,
  );
  expect(times[0]!).toBeLessThan(150);
});
