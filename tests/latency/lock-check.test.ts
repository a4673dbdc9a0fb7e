import { expect, test } from "vitest";
import { checkLocks } from "../../src/latency/lock-check.js";
import type { LockCheck, PeriodName } from "../../src/latency/model.js";
import { statedPeriods } from "../../src/latency/stated-periods.js";
import { contextOf, filmMethod, stated } from "./records.js";
import { drawing } from "./simulator.js";

const period = (periodMs: number | null, name: PeriodName = "polling") => ({
  period: name,
  label: name === "polling" ? "polling interval" : name.replace("_", " "),
  periodMs,
});

const check = (
  runs: readonly (readonly number[])[],
  periodMs: number | null,
  options: { stepMs?: number; statedJitterMs?: number | null; name?: PeriodName } = {},
): LockCheck =>
  checkLocks(runs, [period(periodMs, options.name)], {
    stepMs: options.stepMs ?? 1,
    statedJitterMs: options.statedJitterMs ?? null,
  })[0]!;

/** Contacts at random times, read to whole milliseconds. */
const random = (count: number, seed: number): number[] => {
  const draw = drawing(seed);
  return Array.from({ length: count }, (_, i) => Math.ceil(i * 1370 + draw.normal(0, 120)));
};

/** Contacts that a period of the host triggers: multiples of it, and read to whole milliseconds. */
const triggered = (count: number, periodMs: number, seed: number): number[] => {
  const draw = drawing(seed);
  return Array.from({ length: count }, (_, i) =>
    Math.ceil(Math.round((i * 1370 + draw.normal(0, 120)) / periodMs) * periodMs + 2.3),
  );
};

test("contacts triggered by the period are locked, and add period / sqrt(12) undivided", () => {
  const found = check([triggered(14, 8, 1)], 8);
  expect(found.status).toBe("locked");
  expect(found.addedMs).toBeCloseTo(8 / Math.sqrt(12), 12);
  expect(found.basis).toContain("contact times gather at one phase (n = 14");
});

test("contacts at random times are not locked and add nothing", () => {
  const found = check([random(14, 2)], 8);
  expect(found.status).toBe("not_locked");
  expect(found.addedMs).toBe(0);
  expect(found.contacts?.n).toBe(14);
  expect(found.intervals?.n).toBe(13);
});

test("random rhythms are called locked or unknown in about 1 % of runs with three periods", () => {
  const periods = [period(8), period(1000 / 60, "display_refresh"), period(5, "scan")];
  let flagged = 0;
  for (let run = 0; run < 3000; run++) {
    const checks = checkLocks([random(14, 1000 + run)], periods, { stepMs: 1, statedJitterMs: null });
    if (checks.some((each) => each.status !== "not_locked")) flagged++;
  }
  console.log(`false locks, three periods, 14 presses: ${(flagged / 3000).toFixed(4)}`);
  expect(flagged / 3000).toBeLessThan(0.012);
});

test("planted locks are found in at least 99 % of runs", () => {
  let found = 0;
  for (let run = 0; run < 300; run++) if (check([triggered(14, 8, run)], 8).status === "locked") found++;
  console.log(`planted locks found: ${found} of 300`);
  expect(found / 300).toBeGreaterThan(0.99);
});

test("locks are found across clips that share no time base", () => {
  const clips = [0, 1, 2].map((clip) => triggered(6, 8, clip).map((time) => time + clip * 3.7));
  const found = check(clips, 8);
  expect(found.status).toBe("locked");
  expect(found.contacts?.n).toBe(18);
});

test("a constant rhythm that marches through the period is unknown: the stated period may be a little wrong", () => {
  const marching = Array.from({ length: 14 }, (_, i) => i * 1371);
  const found = check([marching], 8);
  expect(found.status).toBe("unknown");
  expect(found.basis).toContain("the press interval is regular against this period");
  expect(found.addedMs).toBeCloseTo(8 / Math.sqrt(12), 12);
});

test("a period below two frames is judged by how much the press interval varies", () => {
  const found = check([random(14, 3)], 1.002);
  expect(found.contacts).toBeNull();
  expect(found.status).toBe("not_locked");
  expect(found.basis).toContain("the press interval varies by more than this period (observed sd");
  expect(check([Array.from({ length: 14 }, (_, i) => i * 1370)], 1.002).status).toBe("unknown");
});

test("one press a clip leaves only the stated jitter, and without it the phase is unknown", () => {
  const clips = random(14, 4).map((time) => [time]);
  expect(check(clips, 8, { statedJitterMs: 120 }).status).toBe("not_locked");
  expect(check(clips, 8, { statedJitterMs: 120 }).basis).toContain("stated sd 120.0 ms");
  const found = check(clips, 8);
  expect(found.status).toBe("unknown");
  expect(found.basis).toBe("too few contact times on one time base, and no jitter of the press interval is stated");
  expect(check(clips, 8, { statedJitterMs: 2 }).status).toBe("unknown");
});

test("the camera's frame, both ends read, adds frame / sqrt(6) where its phase is not known to be random", () => {
  const found = check([[0, 1370, 2740, 4110, 5480, 6850]], 1, { name: "camera_frame" });
  expect(found.status).toBe("unknown");
  expect(found.addedMs).toBeCloseTo(1 / Math.sqrt(6), 12);
});

test("a period that the record does not state is said so and adds nothing", () => {
  const found = check([random(14, 5)], null);
  expect([found.status, found.addedMs, found.basis]).toEqual([
    "not_stated",
    0,
    "the record does not state this period",
  ]);
});

test("no contacts at all leave every stated period unknown", () => {
  expect(check([], 8).status).toBe("unknown");
  expect(check([[]], 8).status).toBe("unknown");
});

test("the order of contacts does not matter", () => {
  const times = triggered(14, 8, 6);
  expect(check([[...times].reverse()], 8)).toEqual(check([times], 8));
});

test("film is checked against five periods, timings against polling and scan", () => {
  const context = contextOf({ scanRate: stated(200, "Hz"), applicationRate: stated(120, "Hz") });
  expect(statedPeriods("usb", 1, context).map((each) => [each.period, each.periodMs?.toFixed(3)])).toEqual([
    ["polling", "1.002"],
    ["scan", "5.000"],
    ["display_refresh", "4.167"],
    ["application_frame", "8.333"],
    ["camera_frame", "1.000"],
  ]);
  const injected = contextOf({ method: filmMethod({ observes: "injection" }) });
  expect(statedPeriods("usb", null, injected).map((each) => each.period)).toEqual(["polling", "scan"]);
});

test("the measured polling rate goes before the one set, and a connection without settings states none", () => {
  const settings = { usb: { pollingSet: "1000 Hz", pollingMeasured: stated(500, "Hz"), debounce: "", adapter: "" } };
  expect(statedPeriods("usb", 1, contextOf({ settings }))[0]!.periodMs).toBe(2);
  expect(statedPeriods("receiver", 1, contextOf({ settings }))[0]!.periodMs).toBeNull();
});
