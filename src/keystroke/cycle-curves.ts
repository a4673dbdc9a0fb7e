import type { ContactEdge } from "./contact-edge.js";
import type { CorrectedStroke } from "./correction.js";
import type { Found } from "./estimate.js";
import type { PressCurve } from "./press-curve.js";
import type { Profile } from "./profile.js";

/** The release of a cycle: rows, curve, and where the contact opens. */
export interface ReleaseCurve {
  readonly stroke: CorrectedStroke;
  readonly profile: Profile;
  readonly reset: Found<ContactEdge>;
}

/** Everything found on the curves of one cycle. */
export interface CycleCurves {
  readonly press: PressCurve;
  readonly actuation: Found<ContactEdge>;
  readonly release: Found<ReleaseCurve>;
}
