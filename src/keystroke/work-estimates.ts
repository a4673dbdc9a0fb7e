import type { ContactEdge } from "./contact-edge.js";
import type { TesterTerms } from "./correction.js";
import type { ReleaseCurve } from "./cycle-curves.js";
import type { Estimate, Found, Place, Term } from "./estimate.js";
import { missing, scaled, term } from "./estimate.js";
import { readingNoise } from "./noise.js";
import type { PressCurve } from "./press-curve.js";
import { interpolate } from "./profile.js";
import type { StrokeSources } from "./stroke-sources.js";
import { areaUnder, millijoulePerCnMm } from "./work.js";

interface WorkEstimates {
  readonly workToActuate: Estimate;
  readonly workToBottom: Estimate;
  readonly hysteresisLoss: Estimate;
}

/** Work along the press, and the loss between press and release, in millijoules (1 cN·mm = 0.01 mJ). */
export function workEstimates(
  press: PressCurve,
  actuation: Found<ContactEdge>,
  release: ReleaseCurve | null,
  touchForceCn: number,
  tester: TesterTerms,
  sources: StrokeSources,
): WorkEstimates {
  const { bottom } = press;
  const work = (name: string, end: Place, endForceCn: number): Estimate =>
    end.xMm > press.touch.xMm
      ? workTo(name, press, end, endForceCn, touchForceCn, tester, sources)
      : missing("the contact changes over before the probe touches the key");
  return {
    workToActuate: actuation.found
      ? work("work-to-actuate", actuation.at, interpolate(press.profile, actuation.at.xMm))
      : actuation,
    workToBottom: bottom.found ? work("work-to-bottom", bottom.at, bottom.at.forceCn) : bottom,
    hysteresisLoss: !bottom.found
      ? bottom
      : release === null
        ? missing("no release stroke was recorded")
        : hysteresis(press, release, bottom.at, touchForceCn, tester, sources),
  };
}

function workTo(
  name: string,
  press: PressCurve,
  end: Place,
  endForceCn: number,
  touchForceCn: number,
  tester: TesterTerms,
  sources: StrokeSources,
): Estimate {
  const { touch, profile } = press;
  const { areaCnMm, weightMm } = areaUnder(profile, touch.xMm, end.xMm);
  const u = press.noiseCn * weightMm * millijoulePerCnMm;
  const noise = sources.noise(name, "Work: noise of the readings", u, "mJ", Infinity);
  const { forceSpan, forceZero, displacementScale, compliance } = tester;
  const travelMm = end.xMm - touch.xMm;
  const inCnMm: Term[] = [...scaled(end.terms, endForceCn), ...scaled(touch.terms, -touchForceCn)];
  if (forceSpan.source) {
    inCnMm.push(term("shared", forceSpan.source, (areaCnMm - forceZero.value * travelMm) / forceSpan.value));
  }
  if (forceZero.source) inCnMm.push(term("shared", forceZero.source, travelMm));
  if (displacementScale.source)
    inCnMm.push(term("shared", displacementScale.source, areaCnMm / displacementScale.value));
  if (compliance.source) {
    inCnMm.push(term("shared", compliance.source, -(endForceCn ** 2 - touchForceCn ** 2) / 2));
  }
  return {
    found: true,
    value: areaCnMm * millijoulePerCnMm,
    terms: [term("noise", noise, 1), ...scaled(inCnMm, millijoulePerCnMm)],
  };
}

function hysteresis(
  press: PressCurve,
  release: ReleaseCurve,
  bottom: Place & { readonly forceCn: number },
  touchForceCn: number,
  tester: TesterTerms,
  sources: StrokeSources,
): Estimate {
  const { touch } = press;
  const positions = release.profile.xMm;
  if (positions.length < 3 || !(positions[positions.length - 1]! >= bottom.xMm - press.profile.spacingMm)) {
    return missing("the release does not begin beyond bottom-out");
  }
  const hasLifted = release.profile.forceCn[0]! <= touchForceCn;
  if (!(positions[0]! <= touch.xMm + 2 * press.profile.spacingMm || hasLifted)) {
    return missing("the release ends before the force is gone");
  }
  const down = areaUnder(press.profile, touch.xMm, bottom.xMm);
  const up = areaUnder(release.profile, touch.xMm, bottom.xMm);
  const areaCnMm = down.areaCnMm - up.areaCnMm;
  const releaseNoise = readingNoise(release.profile, touch.xMm, bottom.xMm, release.stroke.forceStepCn);
  const u = Math.hypot(press.noiseCn * down.weightMm, releaseNoise * up.weightMm) * millijoulePerCnMm;
  const noise = sources.noise("hysteresis-loss", "Hysteresis loss: noise of the readings", u, "mJ", Infinity);
  const { forceSpan, displacementScale, compliance } = tester;
  const upForceCn = interpolate(release.profile, bottom.xMm);
  const inCnMm: Term[] = [...scaled(bottom.terms, bottom.forceCn - upForceCn)];
  if (forceSpan.source) inCnMm.push(term("shared", forceSpan.source, areaCnMm / forceSpan.value));
  if (displacementScale.source)
    inCnMm.push(term("shared", displacementScale.source, areaCnMm / displacementScale.value));
  if (compliance.source) inCnMm.push(term("shared", compliance.source, -(bottom.forceCn ** 2 - upForceCn ** 2) / 2));
  return {
    found: true,
    value: areaCnMm * millijoulePerCnMm,
    terms: [term("noise", noise, 1), ...scaled(inCnMm, millijoulePerCnMm)],
  };
}
