import { expect, test } from "vitest";
import type { Stroke } from "../../src/records/readings.js";
import { keyCurve } from "../../tools/simulation/key-curve.js";
import { baseShapes } from "../../tools/simulation/key-shape.js";
import { Random } from "../../tools/simulation/random.js";
import { perfectTester, recordCycle, testerSetting } from "../../tools/simulation/tester.js";

const curve = keyCurve(baseShapes.tactileFull);
const fine = {
  ...testerSetting,
  displacementResolutionMm: 1e-9,
  forceResolutionCn: 1e-9,
  forceNoiseCn: 0,
  roughnessCn: 0,
};
const none: Stroke = recordCycle(curve, "KeyF", 1, new Random(1))[0]!;
const strokes = (options: Parameters<typeof recordCycle>[4] = {}): readonly [Stroke, Stroke] => {
  const [press, release] = recordCycle(curve, "KeyF", 1, new Random(5), options);
  return [press ?? none, release ?? none];
};

/** Where the probe meets the key: the first reading with force, to a step. */
const gapOf = (press: Stroke): number => press.displacementMm[press.forceCn.findIndex((f) => f > 1e-6)]!;

test("a perfect tester reads the key's own curve on both strokes", () => {
  const [press, release] = strokes({ setting: fine, gapMm: 0.2 });
  // The gap of a cycle scatters: found from where the reading fits best.
  const misfit = (gap: number): number =>
    press.forceCn.reduce((most, f, i) => {
      const x = press.displacementMm[i]!;
      return x > 0.5 && x < 3.5 ? Math.max(most, Math.abs(f - curve.pressCn(x - gap))) : most;
    }, 0);
  let best = 0.18;
  for (let gap = 0.18; gap < 0.22; gap += 0.0001) if (misfit(gap) < misfit(best)) best = gap;
  expect(misfit(best)).toBeLessThan(0.02);
  const off = release.forceCn.map((f, i) => {
    const x = release.displacementMm[i]!;
    return x > 0.5 && x < 3.5 ? Math.abs(f - curve.releaseCn(x - best)) : 0;
  });
  expect(Math.max(...off)).toBeLessThan(0.02);
});

test("readings corrected by the tester's true errors are the perfect readings", () => {
  const errors = { forceSpan: 1.01, forceZeroCn: 0.5, displacementScale: 0.998, complianceMmPerCn: 0.0001 };
  const [raw] = strokes({ setting: fine, gapMm: 0.2, errors });
  const [perfect] = strokes({ setting: fine, gapMm: 0.2 });
  let matched = 0;
  for (let i = 0; i < Math.min(raw.forceCn.length, perfect.forceCn.length); i++) {
    const force = raw.forceCn[i]! * errors.forceSpan + errors.forceZeroCn;
    const key = raw.displacementMm[i]! * errors.displacementScale - errors.complianceMmPerCn * force;
    const gap = gapOf(perfect);
    if (key < gap + 0.3 || key > gap + 3) continue;
    // The same motor positions: the key is where the frame's giving way leaves it.
    const j = perfect.displacementMm.findIndex((x) => x >= key);
    const slope =
      (perfect.forceCn[j]! - perfect.forceCn[j - 1]!) / (perfect.displacementMm[j]! - perfect.displacementMm[j - 1]!);
    expect(force).toBeCloseTo(perfect.forceCn[j]! + slope * (key - perfect.displacementMm[j]!), 1);
    matched++;
  }
  expect(matched).toBeGreaterThan(200);
});

test("the approach is noise alone, rounded to the tester's steps", () => {
  const [press] = strokes();
  const approach = [...press.forceCn.slice(0, 20)];
  const mean = approach.reduce((a, b) => a + b, 0) / approach.length;
  const sd = Math.sqrt(approach.reduce((a, b) => a + (b - mean) ** 2, 0) / (approach.length - 1));
  expect(sd).toBeGreaterThan(0.03);
  expect(sd).toBeLessThan(0.16);
  for (const f of press.forceCn) expect(Math.abs(f / 0.1 - Math.round(f / 0.1))).toBeLessThan(1e-9);
  for (const x of press.displacementMm) expect(Math.abs(x / 0.005 - Math.round(x / 0.005))).toBeLessThan(1e-9);
});

test("the probe moves down, dwells, repeats positions now and then, and comes back", () => {
  const [press, release] = strokes();
  const repeats = press.displacementMm.filter((x, i) => i > 10 && x === press.displacementMm[i - 1]).length;
  expect(repeats).toBeGreaterThan(2);
  expect(press.displacementMm[0]).toBe(0);
  expect(Math.max(...press.displacementMm)).toBe(release.displacementMm[0]);
  expect(release.displacementMm.at(-1)!).toBeLessThanOrEqual(0.01);
});

test("the contact closes within one step after the make point and opens within one after the break point", () => {
  const [press, release] = strokes({ setting: fine, gapMm: 0.2 });
  const closes = press.displacementMm[press.contact!.indexOf(1)]!;
  const opens = release.displacementMm[release.contact!.lastIndexOf(1) + 1]!;
  expect(closes - 0.2 - baseShapes.tactileFull.makeMm).toBeGreaterThan(-0.015);
  expect(closes - 0.2 - baseShapes.tactileFull.makeMm).toBeLessThan(0.03);
  expect(opens - 0.2 - baseShapes.tactileFull.breakMm).toBeLessThan(0.015);
  expect(opens - 0.2 - baseShapes.tactileFull.breakMm).toBeGreaterThan(-0.03);
});

test("a contact known from reports is late by delay x speed, on either stroke", () => {
  const at = (options: Parameters<typeof recordCycle>[4]): readonly [number, number] => {
    const [press, release] = strokes({ setting: { ...fine, stepMm: 0.001 }, gapMm: 0.2, ...options });
    return [
      press.displacementMm[press.contact!.indexOf(1)]!,
      release.displacementMm[release.contact!.lastIndexOf(1) + 1]!,
    ];
  };
  const now = at({});
  const late = at({ watch: { source: "report", delayMs: () => 20 } });
  expect(late[0] - now[0]).toBeCloseTo(0.01, 2);
  expect(now[1] - late[1]).toBeCloseTo(0.01, 2);
  const [press] = strokes({ watch: { source: "none" } });
  expect(press.contact).toBeNull();
});

test("a probe that slips loses force and never reaches the stop", () => {
  const [press] = strokes({ slipAtMm: 1.2 });
  expect(Math.max(...press.forceCn)).toBeLessThan(70);
  const falls = press.forceCn.map((f, i) => (i === 0 ? 0 : press.forceCn[i - 1]! - f));
  expect(Math.max(...falls)).toBeGreaterThan(10);
});

test("a contact that flickers changes more than once, near its point alone", () => {
  const changes = (s: Stroke): number => s.contact!.filter((c, i) => i > 0 && c !== s.contact![i - 1]).length;
  const [clean] = strokes();
  const [chatter] = strokes({ chatterMm: 0.08 });
  expect(changes(clean)).toBe(1);
  expect(changes(chatter)).toBeGreaterThan(1);
  expect(chatter.contact!.at(-1)).toBe(1);
});

test("a missing release leaves the press alone", () => {
  expect(recordCycle(curve, "KeyF", 1, new Random(1), { withoutRelease: true }).map((s) => s.stroke)).toEqual([
    "press",
  ]);
  expect(perfectTester.forceSpan).toBe(1);
});
