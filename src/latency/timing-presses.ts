import { evidenceStep } from "../metrology/evidence.js";
import type { Timing } from "../records/readings.js";
import type { ObservedPress } from "./observed-press.js";
import { comparePresses } from "./observed-press.js";

/**
 * Reads the rows of `timings.csv` as presses: direct electrical injection, or a light that reports the key's arrival.
 * The time is arrival minus start; the timer's step, found from the readings, takes the place of the frame.
 *
 * @param options.key what to name as the key, since the rows name none
 * @returns by connection, in order of first appearance; presses by number. Two rows of one number are both incomplete.
 */
export function observeTimings(
  timings: readonly Timing[],
  options: { readonly key: string },
): ReadonlyMap<string, readonly ObservedPress[]> {
  const stepMs = timerStepUs(timings.flatMap((row) => [row.startUs, row.arrivalUs])) / 1000;
  const seen = new Map<string, number>();
  for (const row of timings) {
    const id = JSON.stringify([row.connection, row.press]);
    seen.set(id, (seen.get(id) ?? 0) + 1);
  }
  const byConnection = new Map<string, ObservedPress[]>();
  for (const row of timings) {
    const rows = seen.get(JSON.stringify([row.connection, row.press]))!;
    const complete = Number.isFinite(row.startUs) && Number.isFinite(row.arrivalUs);
    const observed: ObservedPress = {
      connection: row.connection,
      press: row.press,
      key: options.key,
      clip: "",
      outcome: "ok",
      excluded: row.excluded,
      fault: !complete
        ? { kind: "incomplete", reason: "a time stamp is missing" }
        : rows > 1
          ? { kind: "incomplete", reason: `${rows} rows claim to be this press` }
          : row.arrivalUs < row.startUs
            ? { kind: "impossible", reason: `it arrived ${row.startUs - row.arrivalUs} µs before it started` }
            : null,
      timeMs: complete ? (row.arrivalUs - row.startUs) / 1000 : null,
      stepMs,
      contactMs: Number.isFinite(row.startUs) ? row.startUs / 1000 : null,
      markMs: null,
      readings: [],
      notes: [],
      evidence: evidenceStep(`press ${row.press} timed from start to arrival`, [row.evidence]),
    };
    const list = byConnection.get(observed.connection);
    if (list === undefined) byConnection.set(observed.connection, [observed]);
    else list.push(observed);
  }
  for (const list of byConnection.values()) list.sort(comparePresses);
  return byConnection;
}

/**
 * Step of a timer from its stamps: their greatest common divisor, to 0.001 µs. It is the resolution that the stamps
 * themselves show (JCGM 100:2008, F.2.2.1); 0 where no stamp is finite and not zero.
 */
export function timerStepUs(stampsUs: readonly number[]): number {
  let step = 0;
  for (const stamp of stampsUs) {
    if (!Number.isFinite(stamp)) continue;
    let a = Math.round(Math.abs(stamp) * 1000);
    while (a !== 0) [a, step] = [step % a, a];
  }
  return step / 1000;
}
