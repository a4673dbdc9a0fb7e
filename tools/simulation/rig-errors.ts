import type { CalibrationTerm, Rig } from "../../src/records/archive.js";
import type { CameraErrors } from "./film.js";
import type { Random } from "./random.js";
import type { TesterErrors } from "./tester.js";

/** Draws the true value of a term from what its certificate says: its value, u and shape. */
function drawTerm(term: CalibrationTerm | undefined, otherwise: number, random: Random): number {
  if (term === undefined) return otherwise;
  const by = term.distribution === "normal" ? random.normal(0, term.u.value) : random.rectangular(term.u.value);
  return term.value.value + by;
}

const termsOf = (rig: Rig): Readonly<Record<string, CalibrationTerm>> => rig.calibrations.at(-1)?.terms ?? {};

/** A tester as it may really be, given its last certificate. */
export function drawTesterErrors(rig: Rig, random: Random): TesterErrors {
  const terms = termsOf(rig);
  return {
    forceSpan: drawTerm(terms["forceSpan"], 1, random),
    forceZeroCn: drawTerm(terms["forceZero"], 0, random),
    displacementScale: drawTerm(terms["displacementScale"], 1, random),
    complianceMmPerCn: drawTerm(terms["compliance"], 0, random),
  };
}

/**
 * A camera rig as it may really be, given its last certificate.
 * @param halfWidths of rectangles about 0: offset between touch and contact on film, and the share of the pre-travel by
 * which it differs between the speeds
 */
export function drawCameraErrors(
  rig: Rig,
  halfWidths: { readonly touchOffsetMm: number; readonly speedShare: number },
  random: Random,
): CameraErrors {
  const terms = termsOf(rig);
  return {
    frameClock: drawTerm(terms["frameClock"], 1, random),
    plungerMmPerS: drawTerm(terms["plungerSpeed"], 120, random),
    acceleration: drawTerm(terms["plungerAcceleration"], 0, random),
    detectorMs: drawTerm(terms["detectorOffset"], 0, random),
    inputPathMs: drawTerm(terms["inputPath"], 0, random),
    touchOffsetMm: random.between(-halfWidths.touchOffsetMm, halfWidths.touchOffsetMm),
    speedShare: random.between(-halfWidths.speedShare, halfWidths.speedShare),
  };
}
