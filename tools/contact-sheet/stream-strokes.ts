import type { Stroke } from "../../src/records/readings.js";
import { splitStream } from "../../src/keystroke/index.js";
import type { StreamFile } from "./stream-csv.js";

/** The strokes of a stream file, one key named after the file; throws, with the reason, where it holds no press. */
export function streamStrokes(file: StreamFile): readonly Stroke[] {
  const { displacementMm, forceCn, name } = file;
  const split = splitStream(displacementMm, forceCn);
  if (split.reason !== "") throw new Error(`${name}: ${split.reason}`);
  const steps = { displacementStepMm: smallestStep(displacementMm), forceStepCn: smallestStep(forceCn) };
  return split.cycles.flatMap(({ press, release }, i) => {
    const cut = (stroke: "press" | "release", from: number, to: number): Stroke => ({
      key: name,
      cycle: i + 1,
      stroke,
      displacementMm: displacementMm.subarray(from, to),
      forceCn: forceCn.subarray(from, to),
      contact: null,
      ...steps,
      evidence: {
        kind: "rows",
        file: `${name}.csv`,
        firstLine: from + 2,
        lastLine: to + 1,
        columns: ["displacement_mm", "force"],
      },
    });
    const strokes = [cut("press", press.from, press.to)];
    if (release !== null) strokes.push(cut("release", release.from, release.to));
    return strokes;
  });
}

/** Smallest difference between two readings that is not rounding. */
function smallestStep(values: Float64Array): number {
  const sorted = Float64Array.from(values).sort();
  let step = Infinity;
  for (let i = 1; i < sorted.length; i++) {
    const difference = sorted[i]! - sorted[i - 1]!;
    if (difference > 1e-6 && difference < step) step = difference;
  }
  return Number.isFinite(step) ? step : 0;
}
