import type { KeystrokeMethod, LatencyMethod } from "../records/archive.js";

/**
 * The method under which old rows are reduced anew: the new method's reduction on what the old one recorded, that is its keys,
 * cycles, conditioning and presses (measurement model, section 5, step 1).
 * @throws RangeError where the two are of different kinds
 */
export function asMethod<M extends KeystrokeMethod | LatencyMethod>(old: M, now: M): M {
  if (old.kind === "keystroke" && now.kind === "keystroke") {
    const { keys, minKeys, conditioningStrokes, cycles, cyclesUsed } = old;
    return { ...now, keys, minKeys, conditioningStrokes, cycles, cyclesUsed };
  }
  if (old.kind === "latency" && now.kind === "latency") {
    const { observes, presses, minPresses, baselineShots, frameRate } = old;
    return { ...now, observes, presses, minPresses, baselineShots, frameRate };
  }
  throw new RangeError(`${now.id} is a ${now.kind} method and cannot reduce the rows of ${old.id}`);
}
