import { expect, test } from "vitest";
import { observeTimings, timerStepUs } from "../../src/latency/timing-presses.js";
import { timing } from "./records.js";

const observe = (...rows: Parameters<typeof observeTimings>[0]) => observeTimings(rows, { key: "KeyF" }).get("usb")!;

test("a timed press is arrival minus start in ms, at the timer's step", () => {
  const [found] = observe(timing(1, 1000, 9125), timing(2, 500000, 508000));
  expect(found!.timeMs).toBe(8.125);
  expect(found!.stepMs).toBe(0.125);
  expect(found!.contactMs).toBe(1);
  expect(found!.fault).toBeNull();
});

test("an arrival before its start is impossible, and says by how much", () => {
  expect(observe(timing(1, 900, 100))[0]!.fault).toEqual({
    kind: "impossible",
    reason: "it arrived 800 µs before it started",
  });
});

test("a missing stamp and a press number used twice are incomplete", () => {
  expect(observe(timing(1, NaN, 100))[0]!.fault?.reason).toBe("a time stamp is missing");
  expect(observe(timing(1, 0, 100), timing(1, 5, 100)).map((press) => press.fault?.reason)).toEqual([
    "2 rows claim to be this press",
    "2 rows claim to be this press",
  ]);
});

test("an excluded timing keeps its time and reason", () => {
  const [found] = observe(timing(1, 0, 100, "the cable was loose"));
  expect([found!.timeMs, found!.excluded]).toEqual([0.1, "the cable was loose"]);
});

test("the step of a timer is the greatest common divisor of its stamps", () => {
  expect(timerStepUs([250, 1000, 1125])).toBe(125);
  expect(timerStepUs([7, 9])).toBe(1);
  expect(timerStepUs([0.5, 2])).toBe(0.5);
  expect(timerStepUs([0, NaN])).toBe(0);
  expect(timerStepUs([])).toBe(0);
  expect(timerStepUs([-300, 200])).toBe(100);
});
