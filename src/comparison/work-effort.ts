import { Absent, Quantity, evidenceStep } from "../metrology/index.js";
import type { Measured } from "../metrology/index.js";

/** How often each piece of work is done: `{ mount: 1, key: 8 }`. */
export type WorkPieces = Readonly<Record<string, number>>;

/**
 * Minutes of work for a set of pieces, from the lab's stated minutes a piece (lab.yaml, `effort`).
 *
 * @param pieces numbers of at least 0 by the effort's name; those of 0 need no stated effort
 * @param effort minutes by name, as the lab states them
 * @returns absent, naming what is missing, where the lab states no minutes for a piece
 * @throws RangeError on a number of pieces below 0 or NaN
 */
export function workEffort(pieces: WorkPieces, effort: Readonly<Record<string, Quantity<"min">>>): Measured<"min"> {
  const wanted = Object.entries(pieces).filter(([name, times]) => {
    if (!(times >= 0 && Number.isFinite(times))) throw new RangeError(`${name} is done ${times} times`);
    return times > 0;
  });
  const known = wanted.flatMap(([name, times]) => {
    const each = effort[name];
    return each === undefined ? [] : [{ name, times, each }];
  });
  const evidence = evidenceStep(
    "minutes of work",
    known.map(({ each }) => each.evidence),
  );
  const missing = wanted.filter(([name]) => effort[name] === undefined).map(([name]) => name);
  if (missing.length > 0)
    return new Absent("min", `lab.yaml states no effort for ${missing.map(spoken).join(", ")}`, evidence);
  const minutes = known.reduce((total, { times, each }) => total + times * each.value, 0);
  return new Quantity(minutes, "min", [], evidence);
}

function spoken(name: string): string {
  return name.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
}
