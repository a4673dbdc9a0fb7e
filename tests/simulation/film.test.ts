import { expect, test } from "vitest";
import type { FilmSetup } from "../../tools/simulation/film.js";
import { drawFilm } from "../../tools/simulation/film.js";
import { drawBaseline, expectedSystemMs, hostSystem } from "../../tools/simulation/host-system.js";
import { randomFor } from "../../tools/simulation/random.js";

const still = {
  ...hostSystem,
  driverMs: 0,
  applicationMs: 0,
  applicationSdMs: 0,
  refreshHz: Infinity,
  row: 0,
  pixelSdMs: 0,
};
const setup = (latencyMs: number, more: Partial<FilmSetup> = {}): FilmSetup => ({
  connection: "usb",
  key: "KeyF",
  preTravelMm: 0,
  chain: {
    bounceMs: 1,
    bounceMostMs: 1,
    debounce: { kind: "eager", ms: 0 },
    scanMs: 0,
    firmwareMs: latencyMs,
    link: { kind: "usb", pollMs: 0 },
  },
  host: { ...still, pixelMs: 0 },
  errors: {
    frameClock: 1,
    plungerMmPerS: 1e9,
    acceleration: 0,
    detectorMs: 0,
    inputPathMs: 0,
    touchOffsetMm: 0,
    speedShare: 0,
  },
  frameRateHz: 1000,
  presses: 400,
  readers: [{ name: "reader-a", contactOffset: 0, responseOffset: 0, slipShare: 0 }],
  intervalMs: 200,
  intervalJitterMs: 30,
  ...more,
});

const frames = (s: FilmSetup, seed = 1): readonly number[] =>
  drawFilm(s, "clip", randomFor(seed, "film"))
    .presses.filter((p) => p.responseFrame !== null)
    .map((p) => p.responseFrame! - p.contactFrame!);

test("a fixed latency shows only the two frame counts around it, in the shares that make its mean", () => {
  const counts = frames(setup(7.3));
  expect(new Set(counts)).toEqual(new Set([7, 8]));
  expect(counts.reduce((a, b) => a + b, 0) / counts.length).toBeCloseTo(7.3, 1);
  expect(new Set(frames(setup(7)))).toEqual(new Set([7]));
});

test("over all latencies the error of both frames has no bias and sd Tf/√6", () => {
  const errors: number[] = [];
  for (let i = 0; i < 300; i++) {
    const latency = 5 + i / 300;
    errors.push(...frames(setup(latency, { presses: 20 }), i).map((f) => f - latency));
  }
  const mean = errors.reduce((a, b) => a + b, 0) / errors.length;
  const sd = Math.sqrt(errors.reduce((a, b) => a + (b - mean) ** 2, 0) / errors.length);
  expect(Math.abs(mean)).toBeLessThan(0.03);
  expect(sd).toBeCloseTo(1 / Math.sqrt(6), 1);
});

test("1 frame at 1000 frames a second is 1 ms; 2.0 mm at 100 mm/s are 20 ms", () => {
  const travel = setup(0, { preTravelMm: 2, errors: { ...setup(0).errors, plungerMmPerS: 100 } });
  const counts = frames(travel);
  expect(counts.reduce((a, b) => a + b, 0) / counts.length).toBeCloseTo(20, 0);
});

test("a reader's offset moves the mean; a reader's slips are one frame", () => {
  const reader = (responseOffset: number, slipShare: number): FilmSetup["readers"][number] => ({
    name: "reader-b",
    contactOffset: 0,
    responseOffset,
    slipShare,
  });
  const mean = (s: FilmSetup): number => {
    const all = frames(s);
    return all.reduce((a, b) => a + b, 0) / all.length;
  };
  expect(mean(setup(7.3, { readers: [reader(0.4, 0)] })) - 7.3).toBeCloseTo(0.4, 1);
  const slipping = frames(setup(7, { readers: [reader(0, 0.3)] }));
  expect(new Set(slipping).size).toBeGreaterThan(2);
  expect(Math.max(...slipping) - Math.min(...slipping)).toBeLessThanOrEqual(4);
});

test("a missed press has no response, an unreadable one no frames; marks lie between contact and response", () => {
  const { presses } = drawFilm(
    setup(9, {
      presses: 3,
      marks: true,
      preTravelMm: 1,
      errors: { ...setup(0).errors, plungerMmPerS: 200 },
      outcomes: { 1: "missed", 2: "unreadable" },
      excluded: { 3: "a reason" },
    }),
    "clip",
    randomFor(1, "film"),
  );
  expect(presses.map((p) => [p.outcome, p.responseFrame === null, p.contactFrame === null, p.excluded])).toEqual([
    ["missed", true, false, ""],
    ["unreadable", true, true, ""],
    ["ok", false, false, "a reason"],
  ]);
  expect(presses[2]!.markFrame! - presses[2]!.contactFrame!).toBeCloseTo(5, -1);
  expect(presses[2]!.markFrame!).toBeLessThan(presses[2]!.responseFrame!);
});

test("parts of a baseline add up, and have the means that are taken as true", () => {
  const shots = drawBaseline(hostSystem, 2000, randomFor(1, "baseline"));
  for (const s of shots) expect(s.totalMs).toBeCloseTo(s.inputMs! + s.pcMs! + s.displayMs!, 9);
  const mean = (part: "pcMs" | "displayMs"): number => shots.reduce((a, s) => a + s[part]!, 0) / shots.length;
  expect(mean("pcMs")).toBeCloseTo(expectedSystemMs(hostSystem).pcMs, 1);
  expect(mean("displayMs")).toBeCloseTo(expectedSystemMs(hostSystem).displayMs, 1);
  expect(new Set(shots.map((s) => s.block))).toEqual(new Set(["before", "after"]));
});
