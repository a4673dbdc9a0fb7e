import type { Timing } from "../../src/records/readings.js";
import type { KeyboardChain } from "./keyboard-chain.js";
import { drawChainMs } from "./keyboard-chain.js";
import type { Random } from "./random.js";
import { simulatedRows } from "./tester.js";

export interface TimingSetup {
  readonly connection: string;
  readonly chain: KeyboardChain;
  readonly presses: number;
  readonly intervalMs: number;
  readonly intervalJitterMs: number;
  /** What is inside the time before the contact, in ms: 0 for direct injection, the travel for a light. */
  readonly beforeMs: (random: Random) => number;
  /** What is inside it after the host's port: driver, or driver and light. */
  readonly afterMs: (random: Random) => number;
  /** True clock / nominal. */
  readonly clock: number;
}

/** Timings of direct injection, or of a light that reports the arrival: start and arrival in whole microseconds. */
export function drawTimings(setup: TimingSetup, random: Random): readonly Timing[] {
  let atMs = random.between(200, 700);
  return Array.from({ length: setup.presses }, (_, i) => {
    const took = setup.beforeMs(random) + drawChainMs(setup.chain, random) + setup.afterMs(random);
    const startUs = Math.round(atMs * 1000);
    const arrivalUs = Math.round((atMs + took * setup.clock) * 1000);
    atMs += setup.intervalMs + random.rectangular(setup.intervalJitterMs);
    return { connection: setup.connection, press: i + 1, startUs, arrivalUs, excluded: "", evidence: simulatedRows };
  });
}
