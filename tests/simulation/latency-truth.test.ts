import normalQuantile from "@stdlib/stats-base-dists-normal-quantile";
import { expect, test } from "vitest";
import type { FilmSetup } from "../../tools/simulation/film.js";
import { drawFilm } from "../../tools/simulation/film.js";
import { expectedSystemMs, hostSystem } from "../../tools/simulation/host-system.js";
import { expectedChainMs } from "../../tools/simulation/keyboard-chain.js";
import { expectedKeptMean, latencyTruth } from "../../tools/simulation/latency-truth.js";
import { randomFor } from "../../tools/simulation/random.js";
import { chains } from "../../tools/simulation/chains.js";

const normal = Float64Array.from({ length: 20_000 }, (_, i) => normalQuantile((i + 0.5) / 20_000, 0, 1));

test("keeping the fastest 10 of 12 normal values biases their mean by -0.27 standard deviations", () => {
  expect(expectedKeptMean(normal, 10, 12)).toBeCloseTo(-0.27, 2);
  expect(expectedKeptMean(normal, 12, 12)).toBeCloseTo(0, 6);
  // One of two: -1/√π.
  expect(expectedKeptMean(normal, 1, 2)).toBeCloseTo(-1 / Math.sqrt(Math.PI), 3);
  expect(() => expectedKeptMean(normal, 3, 2)).toThrow(RangeError);
});

const setup: FilmSetup = {
  connection: "bluetooth",
  key: "KeyF",
  preTravelMm: 1.9,
  chain: chains.bluetooth,
  host: hostSystem,
  errors: {
    frameClock: 1,
    plungerMmPerS: 120,
    acceleration: 0,
    detectorMs: 0,
    inputPathMs: 0,
    touchOffsetMm: 0,
    speedShare: 0,
  },
  frameRateHz: 960,
  presses: 14,
  readers: [{ name: "reader-a", contactOffset: 0, responseOffset: 0, slipShare: 0 }],
  intervalMs: 1370,
  intervalJitterMs: 120,
};

test("L is the chain's expectation, and many filmed sessions agree with L, L_k and the spread of a press", () => {
  const truth = latencyTruth(setup, 11, randomFor(1, "truth"));
  expect(truth.latencyMs).toBe(expectedChainMs(chains.bluetooth));
  const system = expectedSystemMs(hostSystem);
  const removed = system.pcMs + system.displayMs + (1.9 / 120) * 1000;
  const sessions = 1500;
  let all = 0;
  let kept = 0;
  let squares = 0;
  for (let i = 0; i < sessions; i++) {
    const { presses } = drawFilm(setup, "clip", randomFor(i, "session"));
    const times = presses.map((p) => ((p.responseFrame! - p.contactFrame!) * 1000) / 960 - removed);
    times.sort((a, b) => a - b);
    all += times.reduce((a, b) => a + b, 0) / 14;
    kept += times.slice(0, 11).reduce((a, b) => a + b, 0) / 11;
    squares += times.reduce((a, b) => a + (b - truth.latencyMs) ** 2, 0) / 14;
  }
  const error = truth.sigmaMs / Math.sqrt(14 * sessions);
  expect(Math.abs(all / sessions - truth.latencyMs)).toBeLessThan(4 * error);
  expect(Math.abs(kept / sessions - truth.latencyKeptMs)).toBeLessThan(5 * error);
  expect(Math.sqrt(squares / sessions) / truth.sigmaMs).toBeCloseTo(1, 1);
  expect(truth.latencyKeptMs).toBeLessThan(truth.latencyMs);
  expect(truth.medianMs).toBeLessThan(truth.p90Ms);
});

test("the rig's own errors are no part of the truth", () => {
  const wrong = { ...setup, errors: { ...setup.errors, detectorMs: 5, inputPathMs: 3, acceleration: 0.2 } };
  const truth = latencyTruth(wrong, 11, randomFor(1, "truth"), 5000);
  expect(truth).toEqual(latencyTruth(setup, 11, randomFor(1, "truth"), 5000));
});
