import type { KeystrokeMethod } from "../records/archive.js";
import type { CycleCurves } from "./cycle-curves.js";
import type { CurveFlag } from "./model.js";
import type { PressCurve } from "./press-curve.js";

/** Readings this many in the smoothing window, or fewer, make a record too coarse. */
const fewestInWindow = 5;
/** A bump must stand this many times above the noise of neighbouring readings. */
const noiseShare = 6;
/** Positions at the largest force that make a plateau of saturation. */
const plateauPositions = 4;

/**
 * Remarks on one cycle that a reviewer must see, in a fixed order; none is ever dropped for being unimportant.
 * Codes: `no_approach`, `zero_offset`, `noise`, `saturation`, `coarse_step`, `missing_release`, `early_contact`,
 * `contact_bounce`, `teasing`, `slip`, `peak_after_actuation`.
 */
export function curveFlags(curves: CycleCurves, method: KeystrokeMethod, usesContact: boolean): readonly CurveFlag[] {
  const { press, release } = curves;
  const { key, cycle } = press.stroke;
  const flags: CurveFlag[] = [];
  const flag = (code: string, message: string | null): void => {
    if (message !== null) flags.push({ code, message, key, cycle });
  };
  flag("no_approach", press.touch.approachRows > 0 ? null : "the press has no approach: the force level before touch is taken as 0 cN and the touch point is wider"); // prettier-ignore
  flag("zero_offset", zeroOffset(press, method));
  flag("noise", noise(press, method));
  flag("saturation", saturation(press, method));
  flag("coarse_step", coarseStep(press, method));
  flag("missing_release", release.found ? null : "no release stroke was recorded");
  if (usesContact) contactFlags(curves, flag);
  flag("slip", slip(press, method));
  const bump = press.bumps.bump;
  if (usesContact && bump && curves.actuation.found && bump.peak.xMm > curves.actuation.at.xMm) {
    const byMm = bump.peak.xMm - curves.actuation.at.xMm;
    flag("peak_after_actuation", `the contact closes ${mm(byMm)} before the tactile peak is reached (teasing)`);
  }
  return flags;
}

function contactFlags(curves: CycleCurves, flag: (code: string, message: string | null) => void): void {
  const { press, actuation, release } = curves;
  if (!actuation.found) {
    flag("early_contact", press.stroke.contact?.[0] === 1 ? actuation.reason : null);
  } else {
    const { changes, bounceMm, strayMm, isLasting, xMm } = actuation.at;
    const touchMm = press.touch.xMm;
    const early = strayMm.filter((x) => x < touchMm);
    const tease = strayMm.filter((x) => x >= touchMm);
    flag("early_contact", early.length > 0 ? `the contact was closed before the probe touched the key, ${mm(touchMm - early[0]!)} before touch` : xMm < touchMm ? "the contact closes before the probe touches the key" : null); // prettier-ignore
    flag(
      "contact_bounce",
      changes > 1 ? `the contact closes ${changes} times within ${mm(bounceMm)} on the press` : null,
    );
    flag("teasing", tease.length > 0 ? `the contact closes and opens again ${mm(xMm - tease[0]!)} before it closes for good` : !isLasting ? "the contact has opened again by the end of the press" : null); // prettier-ignore
  }
  if (!release.found || !release.at.reset.found) return;
  const { changes, bounceMm, strayMm } = release.at.reset.at;
  flag(
    "contact_bounce",
    changes > 1 ? `the contact opens ${changes} times within ${mm(bounceMm)} on the release` : null,
  );
  flag("teasing", strayMm.length > 0 ? "the contact opens and closes again on the release" : null);
}

function zeroOffset(press: PressCurve, method: KeystrokeMethod): string | null {
  const { levelCn, approachRows } = press.touch;
  if (approachRows === 0 || Math.abs(levelCn) <= method.touchForce.value) return null;
  return `the force of the approach is ${levelCn.toFixed(2)} cN: the tester was not zeroed, or the probe rested on the key`;
}

function noise(press: PressCurve, method: KeystrokeMethod): string | null {
  const approach = press.touch.noiseCn * method.touchDeviations;
  if (approach > method.touchForce.value) {
    return `the noise of the approach, ${press.touch.noiseCn.toFixed(2)} cN, hides the touch force of ${method.touchForce.value} cN`;
  }
  if (noiseShare * press.noiseCn > method.prominence.value) {
    return `the noise of the press, ${press.noiseCn.toFixed(2)} cN, is more than a sixth of the prominence that a bump must have`;
  }
  return null;
}

function saturation(press: PressCurve, method: KeystrokeMethod): string | null {
  const { xMm, forceCn } = press.profile;
  const largest = forceCn.reduce((a, b) => Math.max(a, b), -Infinity);
  const tolerance = press.stroke.forceStepCn / 2;
  let first = forceCn.length;
  let count = 0;
  forceCn.forEach((force, i) => {
    if (force < largest - tolerance) return;
    count++;
    first = Math.min(first, i);
  });
  if (count < plateauPositions || first < 3) return null;
  const before = (forceCn[first - 1]! - forceCn[first - 3]!) / (xMm[first - 1]! - xMm[first - 3]!);
  if (!(before > method.bottomOutSlope.value / 2)) return null;
  return `the force stops at ${largest.toFixed(1)} cN over ${count} positions while the displacement goes on: the force channel is saturated`;
}

function coarseStep(press: PressCurve, method: KeystrokeMethod): string | null {
  const windowMm = method.smoothingWindow.value;
  const spacing = Math.max(press.profile.spacingMm, press.stroke.displacementStepMm);
  if (!(spacing * fewestInWindow > windowMm)) return null;
  return `the readings are ${mm(spacing)} apart: fewer than ${fewestInWindow} in the smoothing window of ${mm(windowMm)}`;
}

function slip(press: PressCurve, method: KeystrokeMethod): string | null {
  const { profile, stretch } = press;
  const texts: string[] = [];
  if (profile.retreatRows > 0) {
    texts.push(
      `the probe moves back by up to ${mm(profile.retreatMm)} during the press (${profile.retreatRows} rows left out)`,
    );
  }
  const drops = suddenDrops(press, method);
  if (drops.length > 0) {
    const largest = Math.max(...drops.map((drop) => drop.cn));
    const place = mm(drops[0]!.mm - stretch.fromMm);
    texts.push(
      `the force drops by up to ${largest.toFixed(1)} cN and recovers, ${drops.length} time${drops.length === 1 ? "" : "s"} from ${place} on`,
    );
  }
  return texts.length === 0 ? null : texts.join("; ");
}

/** Falls by the method's prominence within two positions, of which half or more is regained within half a window. */
function suddenDrops(
  press: PressCurve,
  method: KeystrokeMethod,
): readonly { readonly mm: number; readonly cn: number }[] {
  const { xMm, forceCn } = press.profile;
  const limit = Math.max(method.prominence.value, noiseShare * press.noiseCn);
  const drops: { mm: number; cn: number }[] = [];
  for (let i = 0; i + 2 < xMm.length; i++) {
    if (xMm[i]! < press.stretch.fromMm || xMm[i + 2]! > press.stretch.toMm) continue;
    const lowAt = forceCn[i + 1]! <= forceCn[i + 2]! ? i + 1 : i + 2;
    const low = forceCn[lowAt]!;
    const cn = forceCn[i]! - low;
    if (cn < limit) continue;
    let regained = 0;
    for (let j = lowAt + 1; j < xMm.length && xMm[j]! <= xMm[i]! + method.smoothingWindow.value / 2; j++) {
      regained = Math.max(regained, forceCn[j]! - low);
    }
    if (regained < cn / 2) continue;
    drops.push({ mm: xMm[i]!, cn });
    i += 2;
  }
  return drops;
}

function mm(value: number): string {
  return `${value.toFixed(3)} mm`;
}
