import type { ContactEdge } from "./contact-edge.js";
import type { CorrectedStroke, TesterTerms } from "./correction.js";
import type { CycleCurves, ReleaseCurve } from "./cycle-curves.js";
import type { Estimate, Found, Place, Term } from "./estimate.js";
import { missing, scaled, term } from "./estimate.js";
import { leverage } from "./local-fit.js";
import type { LocalValue } from "./local-value.js";
import { localValue } from "./local-value.js";
import type { KeyCharacteristic } from "./model.js";
import { extremumForceTerms, extremumPlace, fitForceTerms, rigForceTerms, travelBetween } from "./places.js";
import type { PressCurve } from "./press-curve.js";
import type { Profile } from "./profile.js";
import { interpolate } from "./profile.js";
import type { ReductionContext } from "./reduction-context.js";
import { linearPart } from "./stiffness.js";
import type { StrokeSources } from "./stroke-sources.js";
import { tactileBump } from "./tactile-bump.js";
import { workEstimates } from "./work-estimates.js";

export type Estimates = Readonly<Record<KeyCharacteristic, Estimate>>;

/** All characteristics absent for one reason, such as a press that never touches the key. */
export function allMissing(names: readonly KeyCharacteristic[], reason: string): Estimates {
  return Object.fromEntries(names.map((name) => [name, missing(reason)])) as Estimates;
}

/**
 * The characteristics of one cycle as numbers with their terms (docs/methods.md gives each definition and its source).
 */
export function cycleEstimates(
  curves: CycleCurves,
  context: ReductionContext,
  tester: TesterTerms,
  sources: StrokeSources,
): Estimates {
  const { press, actuation, release } = curves;
  const windowMm = context.method.smoothingWindow.value;
  const touch: Place = press.touch;
  const touchForce = press.touch.levelCn + context.method.touchForce.value;
  const travel = (place: Place, forceCn: number): Estimate => travelBetween(touch, touchForce, place, forceCn, tester);
  const bump = press.bumps.bump;
  const noBump = missing(
    `the press has no local peak of at least ${context.method.prominence.value} cN before bottom-out`,
  );
  const make = edgeForce("actuation", "Actuation force", actuation, press.profile, press.stretch, press.stroke, windowMm, tester, sources); // prettier-ignore
  const reset = release.found ? release.at.reset : release;
  const released = release.found ? release.at : null;
  const stretch = { fromMm: press.stretch.fromMm, toMm: press.stretch.toMm };
  const open =
    released === null
      ? missing("no release stroke was recorded")
      : edgeForce("reset", "Reset force", reset, released.profile, stretch, released.stroke, windowMm, tester, sources);
  const peakPlace = bump && extremumPlace("peak-position", "Tactile peak", bump.peak, sources);
  const valleyPlace = bump && extremumPlace("valley-position", "Valley", bump.valley, sources);
  const stepCn = press.stroke.forceStepCn;
  const peakTerms = bump ? extremumForceTerms("peak", "Peak force", bump.peak, stepCn, sources) : [];
  const valleyTerms = bump ? extremumForceTerms("valley", "Valley force", bump.valley, stepCn, sources) : [];
  const withRig = (value: number, terms: readonly Term[]): Estimate => ({
    found: true,
    value,
    terms: [...terms, ...rigForceTerms(value, tester)],
  });
  const { bottom } = press;
  return {
    preTravel: actuation.found ? travel(actuation.at, interpolate(press.profile, actuation.at.xMm)) : actuation,
    actuationForce: make,
    operatingForce: operatingForce(press, actuation, make, context, tester, sources),
    peakPosition: bump && peakPlace ? travel(peakPlace, bump.peak.forceCn) : noBump,
    peakForce: bump ? withRig(bump.peak.forceCn, peakTerms) : noBump,
    valleyPosition: bump && valleyPlace ? travel(valleyPlace, bump.valley.forceCn) : noBump,
    valleyForce: bump ? withRig(bump.valley.forceCn, valleyTerms) : noBump,
    tactileRatio: bump ? ratio(bump.peak.forceCn, peakTerms, bump.valley.forceCn, valleyTerms, tester) : noBump,
    resetPoint: reset.found ? travel(reset.at, released ? interpolate(released.profile, reset.at.xMm) : 0) : reset,
    resetForce: open,
    differentialTravel: differentialTravel(press, actuation, released, reset, tester),
    totalTravel: bottom.found ? travel(bottom.at, bottom.at.forceCn) : bottom,
    bottomOutForce: bottom.found ? withRig(bottom.at.forceCn, bottom.at.forceTerms) : bottom,
    stiffness: stiffness(press, windowMm, tester, sources),
    ...workEstimates(press, actuation, released, touchForce, tester, sources),
  };
}

function edgeForce(
  name: string,
  words: string,
  edge: Found<ContactEdge>,
  profile: Profile,
  stretch: { readonly fromMm: number; readonly toMm: number },
  stroke: CorrectedStroke,
  windowMm: number,
  tester: TesterTerms,
  sources: StrokeSources,
): Estimate {
  if (!edge.found) return edge;
  const { xMm } = edge.at;
  if (xMm < stretch.fromMm) return missing("the contact changes over before the probe touches the key");
  const inside = { fromMm: stretch.fromMm, toMm: Math.max(stretch.toMm, xMm) };
  const value: LocalValue | null = localValue(profile, xMm, windowMm, inside, stroke.forceStepCn);
  if (value === null) return missing(`the ${stroke.stroke} holds too few readings where the contact changes over`);
  return {
    found: true,
    value: value.forceCn,
    terms: [
      ...fitForceTerms(name, words, value, stroke.forceStepCn, sources),
      ...scaled(edge.at.terms, value.slope),
      ...rigForceTerms(value.forceCn, tester),
    ],
  };
}

function operatingForce(
  press: PressCurve,
  actuation: Found<ContactEdge>,
  actuationForce: Estimate,
  context: ReductionContext,
  tester: TesterTerms,
  sources: StrokeSources,
): Estimate {
  if (!actuation.found) return missing(`${actuation.reason}, so the way to actuation is not known`);
  const { method } = context;
  const all = press.bumps.bump;
  const makeMm = actuation.at.xMm;
  const before =
    all !== null && all.peak.xMm <= makeMm
      ? all
      : tactileBump(press.profile, press.stretch, method, press.stroke.forceStepCn, makeMm).bump;
  if (before === null || before.peak.xMm > makeMm) {
    const after = all === null ? "" : "; its peak lies after actuation";
    return missing(
      `not applicable: the press has no local peak of at least ${method.prominence.value} cN before actuation${after}`,
    );
  }
  if (actuationForce.found && actuationForce.value > before.peak.forceCn) return actuationForce;
  const { forceCn } = before.peak;
  const terms = extremumForceTerms("peak", "Peak force", before.peak, press.stroke.forceStepCn, sources);
  return { found: true, value: forceCn, terms: [...terms, ...rigForceTerms(forceCn, tester)] };
}

/** (F_peak - F_valley) / F_peak: a common span cancels, a common zero does not. */
function ratio(
  peakCn: number,
  peakTerms: readonly Term[],
  valleyCn: number,
  valleyTerms: readonly Term[],
  tester: TesterTerms,
): Estimate {
  if (!(peakCn > 0)) return missing("the force at the peak is not above 0");
  const zero = tester.forceZero.source;
  return {
    found: true,
    value: (peakCn - valleyCn) / peakCn,
    terms: [
      ...scaled(peakTerms, valleyCn / peakCn ** 2),
      ...scaled(valleyTerms, -1 / peakCn),
      ...(zero ? [term("shared", zero, (valleyCn - peakCn) / peakCn ** 2)] : []),
    ],
  };
}

function differentialTravel(
  press: PressCurve,
  actuation: Found<ContactEdge>,
  release: ReleaseCurve | null,
  reset: Found<ContactEdge>,
  tester: TesterTerms,
): Estimate {
  if (!actuation.found) return actuation;
  if (release === null) return missing("no release stroke was recorded");
  if (!reset.found) return reset;
  const resetCn = interpolate(release.profile, reset.at.xMm);
  return travelBetween(reset.at, resetCn, actuation.at, interpolate(press.profile, actuation.at.xMm), tester);
}

function stiffness(press: PressCurve, windowMm: number, tester: TesterTerms, sources: StrokeSources): Estimate {
  if (!press.bottom.found) return missing("the press does not reach bottom-out, so its linear part has no end");
  const start = press.bumps.bump?.valley.xMm ?? press.touch.xMm;
  const line = linearPart(press.profile, start, press.bottom.at.xMm, windowMm);
  if (line === null) return missing("the linear part of the press holds fewer than eight positions");
  const slope = line.coefficients[1];
  const u = Math.sqrt(line.variance * leverage(line, [0, 1, 0]));
  const noise = sources.noise("stiffness", "Stiffness: scatter about the line", u, "cN/mm", line.dof);
  const terms: Term[] = [term("noise", noise, 1)];
  const { forceSpan, displacementScale, compliance } = tester;
  if (forceSpan.source) terms.push(term("shared", forceSpan.source, slope / forceSpan.value));
  if (displacementScale.source) terms.push(term("shared", displacementScale.source, -slope / displacementScale.value));
  if (compliance.source) terms.push(term("shared", compliance.source, slope ** 2));
  return { found: true, value: slope, terms };
}
