import type { BaselineShot } from "../../src/records/readings.js";
import type { Random } from "./random.js";
import { simulatedRows } from "./tester.js";

/** The computer and the display that every response goes through: what the baseline measures and the method subtracts. */
export interface HostSystem {
  /** Driver and application, up to the wait for the next picture: mean and standard deviation (normal, never below half). */
  readonly driverMs: number;
  readonly applicationMs: number;
  readonly applicationSdMs: number;
  /** Pictures a second; the application's picture waits for the next at a random phase. */
  readonly refreshHz: number;
  /** Where on the screen the response is watched: 0 top, 1 bottom; scan-out takes that share of a picture's time. */
  readonly row: number;
  readonly pixelMs: number;
  readonly pixelSdMs: number;
}

export const hostSystem: HostSystem = {
  driverMs: 0.35,
  applicationMs: 1.6,
  applicationSdMs: 0.12,
  refreshHz: 240,
  row: 0.3,
  pixelMs: 1.9,
  pixelSdMs: 0.06,
};

/** One time from the host's port to the picture being ready, in ms. */
export function drawPcMs(host: HostSystem, random: Random): number {
  const application = Math.max(host.applicationMs / 2, random.normal(host.applicationMs, host.applicationSdMs));
  return host.driverMs + application + (1000 / host.refreshHz) * random.uniform();
}

/** One time from the picture being ready to the light that is watched, in ms. */
export function drawDisplayMs(host: HostSystem, random: Random): number {
  return (1000 / host.refreshHz) * host.row + random.normal(host.pixelMs, host.pixelSdMs);
}

/** Expectations of the two parts. */
export function expectedSystemMs(host: HostSystem): { readonly pcMs: number; readonly displayMs: number } {
  const picture = 1000 / host.refreshHz;
  return { pcMs: host.driverMs + host.applicationMs + picture / 2, displayMs: picture * host.row + host.pixelMs };
}

const hundredths = (x: number): number => Math.round(x * 100) / 100;

/**
 * Shots of the baseline device before and after a session, in parts. The device has an input of its own, polled once a
 * millisecond; readings are rounded to 0.01 ms.
 */
export function drawBaseline(host: HostSystem, shotsPerBlock: number, random: Random): readonly BaselineShot[] {
  return ["before", "after"].flatMap((block) =>
    Array.from({ length: shotsPerBlock }, (_, i) => {
      const inputMs = hundredths(0.2 + random.uniform());
      const pcMs = hundredths(drawPcMs(host, random));
      const displayMs = hundredths(drawDisplayMs(host, random));
      const totalMs = hundredths(inputMs + pcMs + displayMs);
      return { block, shot: i + 1, inputMs, pcMs, displayMs, totalMs, detector: "photodiode", evidence: simulatedRows };
    }),
  );
}
