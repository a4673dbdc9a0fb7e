import { correctStroke, testerTerms } from "../../src/keystroke/correction.js";
import { pressCurve } from "../../src/keystroke/press-curve.js";
import { strokeSources } from "../../src/keystroke/stroke-sources.js";
import type { KeystrokeMethod } from "../../src/records/archive.js";
import type { Stroke } from "../../src/records/readings.js";

/** What the force of a press shows, on the tester's own scale, mm; null where there is none. */
export interface PressMarks {
  readonly touch: number | null;
  readonly peak: number | null;
  readonly valley: number | null;
  readonly bottomOut: number | null;
}

/** The reduction's own marks of a press, without any correction. */
export function pressMarks(stroke: Stroke, method: KeystrokeMethod): PressMarks {
  const tester = testerTerms({ id: "none", calibration: null });
  const sources = strokeSources("session/sheet/s1", stroke.key, stroke.cycle);
  const curve = pressCurve(correctStroke(stroke, tester), method, sources);
  if (!curve.found) return { touch: null, peak: null, valley: null, bottomOut: null };
  const { touch, bottom, bumps } = curve.at;
  return {
    touch: touch.xMm,
    peak: bumps.bump?.peak.xMm ?? null,
    valley: bumps.bump?.valley.xMm ?? null,
    bottomOut: bottom.found ? bottom.at.xMm : null,
  };
}
