import { mean } from "d3-array";
import { expect, test } from "vitest";
import { boundedSource } from "../../src/metrology/source.js";
import { standardDeviation } from "../../src/latency/kept-mean.js";
import { checkLocks } from "../../src/latency/lock-check.js";
import { parseRateHz, statedPeriods } from "../../src/latency/stated-periods.js";
import { detectGrid } from "../../src/latency/polling-grid.js";
import { reduceLatency } from "../../src/latency/reduce-latency.js";
import { systemLatency } from "../../src/latency/system-latency.js";
import { contextOf, film, filmMethod, press, readings, shot, stated } from "./records.js";
import { drawing } from "./simulator.js";

/** Facts of the trade; each "derived; recomputed here", by simulation or through the reduction itself. */

const many = 60000;
const spread = (draw: () => number): { mean: number; sd: number } => {
  const values = Array.from({ length: many }, draw);
  return { mean: mean(values)!, sd: standardDeviation(values) };
};

const polled = [
  [0.125, 0.0361],
  [1, 0.2887],
  [2, 0.5774],
  [4, 1.1547],
  [8, 2.3094],
  [10, 2.8868],
] as const;

test.each(polled)(
  "waiting for polling every %d ms scatters with sd %d ms (derived; recomputed here)",
  (periodMs, sd) => {
    const draw = drawing(1);
    const found = spread(() => draw.uniform(0, periodMs));
    expect(found.mean / (periodMs / 2)).toBeCloseTo(1, 2);
    expect(found.sd / sd).toBeCloseTo(1, 2);
    const grid = detectGrid(
      Array.from({ length: 20 }, (_, i) => 10 + i * 0.01),
      {
        stepMs: 0,
        periods: [{ period: "polling", label: "polling interval", periodMs }],
        seed: 1,
        path: "test",
        evidence: [],
      },
    );
    expect(grid.widths[0]!.expectedSdMs).toBeCloseTo(sd, 4);
    const locked = checkLocks([[]], [{ period: "polling", label: "polling interval", periodMs }], {
      stepMs: 1,
      statedJitterMs: null,
    });
    expect(locked[0]!.addedMs).toBeCloseTo(sd, 4);
  },
);

test("an error 6 ms wide has sd 1.7321 ms; the interval between two such presses 2.4495 ms (derived; recomputed here)", () => {
  const draw = drawing(2);
  expect(spread(() => draw.uniform(0, 6)).sd).toBeCloseTo(1.7321, 1);
  expect(spread(() => draw.uniform(0, 6) - draw.uniform(0, 6)).sd).toBeCloseTo(2.4495, 1);
  expect(boundedSource("a", "", 3, "ms").u).toBeCloseTo(1.7321, 4);
  expect(boundedSource("b", "", 6, "ms", "triangular").u).toBeCloseTo(2.4495, 4);
});

test.each([
  [5, 8, 2.7234],
  [5, 1, 1.472],
])("scan %d ms and polling %d ms together scatter with sd %d ms (derived; recomputed here)", (scan, poll, sd) => {
  const draw = drawing(3);
  const found = spread(() => draw.uniform(0, scan) + draw.uniform(0, poll));
  expect(found.mean / ((scan + poll) / 2)).toBeCloseTo(1, 2);
  expect(found.sd / sd).toBeCloseTo(1, 2);
  expect(Math.sqrt((scan ** 2 + poll ** 2) / 12)).toBeCloseTo(sd, 4);
});

const frameRates = [
  [240, 1.701],
  [480, 0.8505],
  [960, 0.4253],
  [1000, 0.4082],
  [2000, 0.2041],
] as const;

/** A latency read on film by contact and response frames, at random phases. */
function readOnFilm(latencyMs: number, rateHz: number, phase: () => number): number {
  const contact = phase();
  return ((Math.ceil(contact + (latencyMs * rateHz) / 1000) - Math.ceil(contact)) * 1000) / rateHz;
}

test.each(frameRates)(
  "both ends read at %d frames/s err without bias and with sd %d ms (derived; recomputed here)",
  (rateHz, sd) => {
    const draw = drawing(4);
    const found = spread(() => {
      const latencyMs = draw.uniform(40, 60);
      return readOnFilm(latencyMs, rateHz, () => draw.uniform(0, 1)) - latencyMs;
    });
    expect(Math.abs(found.mean)).toBeLessThan(sd / 50);
    expect(found.sd / sd).toBeCloseTo(1, 1);
    // A press observed by the reduction carries the same figure for its two ends.
    const presses = [1, 2, 3].map((i) => press(i, { responseFrame: 50 }));
    const reduced = reduceLatency(readings({ presses, films: [film("c1", rateHz)] }), contextOf());
    const observed = reduced.connections[0]!.presses[0]!.observed;
    if (observed.absent) throw new Error(observed.reason);
    const ends = observed.components.find((component) => component.source.label === "Frames of the film, both ends")!;
    expect(ends.contribution).toBeCloseTo(sd, 4);
  },
);

test("one end read on film, the other known, is late by half a frame with sd Tf/sqrt(12) (derived; recomputed here)", () => {
  const draw = drawing(5);
  const found = spread(() => {
    const time = draw.uniform(0, 100);
    return Math.ceil(time) - time;
  });
  expect(found.mean).toBeCloseTo(0.5, 2);
  expect(found.sd).toBeCloseTo(1 / Math.sqrt(12), 2);
});

test.each([0, 0.1, 0.25, 0.5, 0.9])(
  "a fixed latency shows two frame counts, sd Tf sqrt(p(1-p)) at p = %d (derived; recomputed here)",
  (p) => {
    const draw = drawing(6);
    const values = Array.from({ length: 20000 }, () => readOnFilm(50 + p, 1000, () => draw.uniform(0, 1)));
    // At a whole number of frames the last bits of a phase may round either way: hence the share, not the set.
    expect(values.filter((value) => value < 49.5 || value > 51.5)).toEqual([]);
    expect(Math.abs(standardDeviation(values) - Math.sqrt(p * (1 - p)))).toBeLessThan(0.01);
  },
);

test("sd over all fixed latencies is Tf/sqrt(6), root mean square (derived; recomputed here)", () => {
  let squares = 0;
  const steps = 1000;
  for (let i = 0; i < steps; i++) {
    const p = (i + 0.5) / steps;
    squares += p * (1 - p);
  }
  expect(Math.sqrt(squares / steps)).toBeCloseTo(1 / Math.sqrt(6), 5);
});

test("the mean of many presses resolves far below one frame (derived; recomputed here)", () => {
  const draw = drawing(7);
  const latencyMs = 50.37;
  const values = Array.from({ length: 4000 }, () => readOnFilm(latencyMs, 1000, () => draw.uniform(0, 1)));
  expect(Math.abs(mean(values)! - latencyMs)).toBeLessThan(0.03);
});

test("equal readings are not precision: sd 0 still leaves Tf/sqrt(6) a press (derived; recomputed here)", () => {
  const presses = Array.from({ length: 14 }, (_, i) =>
    press(i + 1, { contactFrame: i * i * 37, responseFrame: i * i * 37 + 50 }),
  );
  const { connections } = reduceLatency(readings({ presses }), contextOf());
  const { film: time, pressSd } = connections[0]!;
  if (time.absent || pressSd.absent) throw new Error("there must be a film time");
  expect(pressSd.value).toBe(0);
  const line = time.components.find((component) => component.source.label === "Frames of the film, both ends")!;
  expect(line.contribution).toBeCloseTo(0.4082 / Math.sqrt(14), 4);
});

test("a step of 0.005 mm is 0.00144 mm, one of 0.1 gf 0.0283 cN (derived; recomputed here)", () => {
  expect(boundedSource("a", "", 0.0025, "mm").u).toBeCloseTo(0.00144, 5);
  expect(boundedSource("b", "", 0.05 * 0.980665, "cN").u).toBeCloseTo(0.0283, 4);
});

test("a baseline of m shots adds s^2/m to the variance (derived; recomputed here)", () => {
  for (const m of [10, 40]) {
    const shots = ["before", "after"].flatMap((block) =>
      Array.from({ length: m / 2 }, (_, i) => shot(block, i + 1, { displayMs: 10 + (i % 2) })),
    );
    const { system } = systemLatency(shots, contextOf());
    if (system.absent) throw new Error(system.reason);
    const noise = system.components.find((component) => component.source.label === "Scatter of the baseline")!;
    const s = standardDeviation(Array.from({ length: m / 2 }, (_, i) => i % 2));
    expect(noise.contribution ** 2).toBeCloseTo(s ** 2 / m, 12);
  }
});

test.each([
  ["8000 Hz", 0.125],
  ["8 kHz", 0.125],
  ["4000 Hz", 0.25],
  ["2000 Hz", 0.5],
  ["1000 Hz", 1],
  ["125 Hz", 8],
  ["100 Hz", 10],
])("polling at %s is every %d ms (derived; recomputed here)", (pollingSet, periodMs) => {
  const settings = { usb: { pollingSet, debounce: "not recorded", adapter: "none" } };
  expect(statedPeriods("usb", 1, contextOf({ settings }))[0]!.periodMs).toBeCloseTo(periodMs, 12);
});

test("a setting that is no rate gives no period", () => {
  expect(["not recorded", "", "fast", "1000", "-5 Hz"].map(parseRateHz)).toEqual([null, null, null, null, null]);
});

test.each([
  [7.5, 3.75, 2.1651],
  [11.25, 5.625, 3.2476],
])("waiting for a radio event every %d ms: mean %d, sd %d ms (derived; recomputed here)", (periodMs, average, sd) => {
  const draw = drawing(8);
  const found = spread(() => draw.uniform(0, periodMs));
  expect(found.mean / average).toBeCloseTo(1, 2);
  expect(found.sd / sd).toBeCloseTo(1, 2);
  const [check] = checkLocks([[]], [{ period: "polling", label: "polling interval", periodMs }], {
    stepMs: 1,
    statedJitterMs: null,
  });
  expect(check!.addedMs).toBeCloseTo(sd, 4);
});

test("at 1000 frames a second one frame is 1 ms (derived; recomputed here)", () => {
  const presses = [press(1, { contactFrame: 10, responseFrame: 11 })];
  const context = contextOf({ method: filmMethod({ frameRate: stated(1000, "Hz") }) });
  const observed = reduceLatency(readings({ presses }), context).connections[0]!.presses[0]!.observed;
  expect(observed.absent ? NaN : observed.value).toBe(1);
});
