import type { KeystrokeMethod } from "../records/archive.js";
import type { BottomOut } from "./bottom-out.js";
import { bottomOut } from "./bottom-out.js";
import type { CorrectedStroke } from "./correction.js";
import type { Found } from "./estimate.js";
import type { Stretch } from "./local-value.js";
import { readingNoise } from "./noise.js";
import type { Profile } from "./profile.js";
import { profileOf } from "./profile.js";
import type { StrokeSources } from "./stroke-sources.js";
import type { BumpSearch } from "./tactile-bump.js";
import { tactileBump } from "./tactile-bump.js";
import type { TouchPoint } from "./touch-point.js";
import { touchPoint } from "./touch-point.js";

/** A press with what its force alone shows: touch, bottom-out, bump. */
export interface PressCurve {
  readonly stroke: CorrectedStroke;
  readonly profile: Profile;
  readonly touch: TouchPoint;
  readonly bottom: Found<BottomOut>;
  /** From touch to bottom-out, or to the deepest reading. */
  readonly stretch: Stretch;
  readonly bumps: BumpSearch;
  /** Noise of the force between neighbouring positions along the stretch, cN. */
  readonly noiseCn: number;
}

/** Finds touch, bottom-out and bump of one press. Absent, with the reason, where there is no touch. */
export function pressCurve(
  stroke: CorrectedStroke,
  method: KeystrokeMethod,
  sources: StrokeSources,
): Found<PressCurve> {
  const profile = profileOf(stroke, method.smoothingWindow.value);
  const touch = touchPoint(stroke, profile, method, sources);
  if (!touch.found) return touch;
  const fromMm = touch.at.xMm;
  const evidenceCn = Math.max(method.touchDeviations * touch.at.noiseCn, method.touchForce.value);
  const deepest = profile.xMm[profile.xMm.length - 1]!;
  const noiseCn = readingNoise(profile, fromMm, deepest, stroke.forceStepCn);
  const limit = method.bottomOutSlope.value;
  const bottom = bottomOut(stroke, profile, fromMm, limit, evidenceCn, noiseCn, sources);
  const stretch = { fromMm, toMm: bottom.found ? bottom.at.xMm : deepest };
  return {
    found: true,
    at: {
      stroke,
      profile,
      touch: touch.at,
      bottom,
      stretch,
      bumps: tactileBump(profile, stretch, method, stroke.forceStepCn),
      noiseCn,
    },
  };
}
