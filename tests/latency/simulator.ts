import { randomNormal, randomUniform } from "d3-random";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";
import { uniformFloat64 } from "pure-rand/distribution/uniformFloat64";
import { Quantity } from "../../src/metrology/quantity.js";
import type { LatencyContext } from "../../src/latency/context.js";
import type { BaselineShot, LatencyReadings, PressReading } from "../../src/records/readings.js";
import { calibrationTerms, film, press, rows, shot, stated, term, withTerms } from "./records.js";

/**
 * The chain from a plunger's touch to a frame of film, with known truth. It shares no code with the reduction: only the
 * shapes of the records and the stated uncertainties, from which every term of the budget is drawn anew each run.
 */
export interface Chain {
  /** Own latency of the keyboard before its waits: debounce and processing. */
  readonly fixedMs: number;
  readonly scanMs: number;
  readonly pollingMs: number;
  /** sd of what the application adds to a mean of 3 ms. */
  readonly pcSdMs: number;
  readonly refreshMs: number;
  readonly pixelMs: number;
  readonly frameMs: number;
  readonly preTravelMm: number;
  readonly speedMmPerS: number;
  /** Extra wait, for skewed scatter: exponential of this mean. */
  readonly retryMs: number;
  readonly readers: number;
  readonly marks: boolean;
  /** The plunger is triggered by the polling itself, so that the wait for it is the same in every press of a session. */
  readonly locked: boolean;
}

export const usualChain: Chain = {
  fixedMs: 6,
  scanMs: 4,
  pollingMs: 8,
  pcSdMs: 0.4,
  refreshMs: 1000 / 240,
  pixelMs: 2,
  frameMs: 1,
  preTravelMm: 2,
  speedMmPerS: 120,
  retryMs: 0,
  readers: 1,
  marks: false,
  locked: false,
};

export interface Draw {
  readonly uniform: (low: number, high: number) => number;
  readonly normal: (mean: number, sd: number) => number;
}

export function drawing(seed: number): Draw {
  const generator = xoroshiro128plus(seed);
  const source = (): number => uniformFloat64(generator);
  const uniform = randomUniform.source(source);
  const normal = randomNormal.source(source);
  return { uniform: (low, high) => uniform(low, high)(), normal: (mean, sd) => normal(mean, sd)() };
}

/** Expected own latency of the keyboard: L's truth. */
export function expectedLatencyMs(chain: Chain): number {
  return chain.fixedMs + chain.scanMs / 2 + chain.pollingMs / 2 + chain.retryMs;
}

interface Unknowns {
  readonly clock: number;
  readonly speed: number;
  readonly acceleration: number;
  readonly detectorMs: number;
  readonly inputMs: number;
  readonly zeroMm: number;
  readonly speedEffect: number;
}

/** One session: n presses, two blocks of m shots, and what the laboratory would know of it. */
export function simulateSession(
  chain: Chain,
  draw: Draw,
  sizes: { readonly presses: number; readonly shots: number } = { presses: 14, shots: 20 },
): { readonly readings: LatencyReadings; readonly context: LatencyContext } {
  const rectangular = (u: number): number => draw.uniform(-u * Math.sqrt(3), u * Math.sqrt(3));
  const speed = chain.speedMmPerS + draw.normal(0, 2);
  const decades = Math.abs(Math.log10(chain.speedMmPerS / 0.5));
  const unknowns: Unknowns = {
    clock: draw.normal(0, 0.00005),
    speed,
    acceleration: rectangular(0.02),
    detectorMs: rectangular(0.6),
    inputMs: rectangular(0.5),
    zeroMm: draw.uniform(-1, 1) * ((chain.speedMmPerS * chain.frameMs) / 1000),
    speedEffect: draw.uniform(-0.01, 0.01) * decades,
  };
  const scale = draw.normal(0, 0.001);
  const measuredMm = chain.preTravelMm * (1 + scale) + draw.normal(0, 0.02);
  const presses = simulatePresses(chain, draw, unknowns, sizes.presses, measuredMm);
  const baseline: BaselineShot[] = ["before", "after"].flatMap((block, b) =>
    Array.from({ length: sizes.shots }, (_, i) => {
      const pcMs = systemPc(chain, draw) - unknowns.inputMs;
      const displayMs = systemDisplay(chain, draw) - unknowns.detectorMs;
      return shot(block, b * sizes.shots + i + 1, { inputMs: 2, pcMs, displayMs, totalMs: 2 + pcMs + displayMs });
    }),
  );
  const scaleSource = {
    id: "rig/tester-1/2025-11-03/displacement-scale",
    label: "Displacement scale",
    type: "B" as const,
  };
  const ownSource = { id: "stroke/u07/s1/KeyF/pre-travel", label: "Repeats of KeyF", type: "B" as const };
  const preTravel = new Quantity(
    measuredMm,
    "mm",
    [
      {
        source: { ...scaleSource, distribution: "normal", u: 0.001, symbol: "1", dof: Infinity },
        contribution: measuredMm * 0.001,
      },
      { source: { ...ownSource, distribution: "normal", u: 0.02, symbol: "mm", dof: Infinity }, contribution: 0.02 },
    ],
    rows("units/u07/s1/force.csv", 2),
  );
  const terms = { ...calibrationTerms, plungerSpeed: term(chain.speedMmPerS, 2, "mm/s") };
  const context = withTerms(terms, {
    nominalPlungerSpeed: stated(chain.speedMmPerS, "mm/s"),
    settings: {
      usb: {
        pollingSet: `${1000 / chain.pollingMs} Hz`,
        debounce: "not adjustable",
        adapter: "none",
      },
    },
    refreshRate: stated(1000 / chain.refreshMs, "Hz"),
    preTravel: { KeyF: { preTravel, of: "pressed_key" } },
  });
  return { readings: { presses, films: [film("c1", 1000 / chain.frameMs)], baseline, timings: [] }, context };
}

function simulatePresses(
  chain: Chain,
  draw: Draw,
  unknowns: Unknowns,
  count: number,
  markMm: number,
): readonly PressReading[] {
  const trueFrameMs = chain.frameMs * (1 + unknowns.clock);
  const readers = Array.from({ length: chain.readers }, (_, r) => ({
    reader: `reader-${"abc"[r]}`,
    contact: draw.uniform(-0.5, 0.5),
    mark: draw.uniform(-0.5, 0.5),
    response: draw.uniform(-0.5, 0.5),
  }));
  const perMm = (1000 / unknowns.speed) * (1 + unknowns.acceleration);
  const travelMs = (chain.preTravelMm * (1 + unknowns.speedEffect) - unknowns.zeroMm) * perMm;
  const phaseMs = draw.uniform(0, chain.pollingMs);
  return Array.from({ length: count }, (_, i) => {
    const freeMs = 300 + i * 1370 + draw.normal(0, 120);
    const contactMs = chain.locked ? Math.round(freeMs / chain.pollingMs) * chain.pollingMs + phaseMs : freeMs;
    const ownMs = keyboardMs(chain, draw, chain.locked ? phaseMs : undefined);
    const responseMs = contactMs + travelMs + ownMs + systemPc(chain, draw) + systemDisplay(chain, draw);
    // The mark passes where the tester's zero plus the measured pre-travel lies, as the laboratory set it.
    const markMs = contactMs + markMm * perMm;
    return readers.map((own) =>
      press(i + 1, {
        reader: own.reader,
        contactFrame: Math.ceil(contactMs / trueFrameMs + own.contact),
        markFrame: chain.marks ? Math.ceil(markMs / trueFrameMs + own.mark) : null,
        responseFrame: Math.ceil(responseMs / trueFrameMs + own.response),
      }),
    );
  }).flat();
}

function keyboardMs(chain: Chain, draw: Draw, pollingWaitMs = draw.uniform(0, chain.pollingMs)): number {
  const retry = chain.retryMs === 0 ? 0 : -chain.retryMs * Math.log(1 - draw.uniform(0, 1));
  return chain.fixedMs + draw.uniform(0, chain.scanMs) + pollingWaitMs + retry;
}

function systemPc(chain: Chain, draw: Draw): number {
  return 3 + draw.normal(0, chain.pcSdMs);
}

function systemDisplay(chain: Chain, draw: Draw): number {
  return chain.pixelMs + draw.uniform(0, chain.refreshMs);
}

/**
 * Truth of L_k: the expectation of the mean of the k fastest of n as film shows them, less the expected terms; by
 * `draws` sets of n presses.
 */
export function expectedKeptMs(chain: Chain, draw: Draw, sizes: { n: number; k: number; draws: number }): number {
  const { n, k, draws } = sizes;
  const travelMs = (1000 * chain.preTravelMm) / chain.speedMmPerS;
  const systemMs = 3 + chain.pixelMs + chain.refreshMs / 2;
  let total = 0;
  const set = new Float64Array(n);
  for (let d = 0; d < draws; d++) {
    for (let i = 0; i < n; i++) {
      const time = travelMs + keyboardMs(chain, draw) + systemPc(chain, draw) + systemDisplay(chain, draw);
      const phase = draw.uniform(0, chain.frameMs);
      set[i] = (Math.ceil((phase + time) / chain.frameMs) - Math.ceil(phase / chain.frameMs)) * chain.frameMs;
    }
    set.sort();
    for (let i = 0; i < k; i++) total += set[i]! / k;
  }
  return total / draws - travelMs - systemMs;
}
