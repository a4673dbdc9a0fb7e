import type { Evidence } from "../metrology/evidence.js";
import type { Measured } from "../metrology/quantity.js";

/** Characteristics of one press-and-release cycle, of a key (mean of its used cycles) and of a unit. */
export interface KeyCharacteristics {
  /** Touch point to actuation point, along the press. */
  readonly preTravel: Measured<"mm">;
  /** Force at the actuation point. */
  readonly actuationForce: Measured<"cN">;
  /** Largest force from touch to actuation where a local peak of the method's prominence exists there. */
  readonly operatingForce: Measured<"cN">;
  /** Position and force of the tactile peak, position of touch = 0. */
  readonly peakPosition: Measured<"mm">;
  readonly peakForce: Measured<"cN">;
  readonly valleyPosition: Measured<"mm">;
  readonly valleyForce: Measured<"cN">;
  /** (F_peak - F_valley) / F_peak on the press stroke; absent, not 0, for a linear key. */
  readonly tactileRatio: Measured<"1">;
  /** Touch to the point on the release where the contact opens; and the force there. */
  readonly resetPoint: Measured<"mm">;
  readonly resetForce: Measured<"cN">;
  /** Actuation position minus reset position. */
  readonly differentialTravel: Measured<"mm">;
  /** Touch to bottom-out, and the force there. */
  readonly totalTravel: Measured<"mm">;
  readonly bottomOutForce: Measured<"cN">;
  /** Slope of the linear part of the press. */
  readonly stiffness: Measured<"cN/mm">;
  /** Area under the press stroke from touch to actuation, and to bottom-out; loop area. */
  readonly workToActuate: Measured<"mJ">;
  readonly workToBottom: Measured<"mJ">;
  readonly hysteresisLoss: Measured<"mJ">;
}

export type KeyCharacteristic = keyof KeyCharacteristics;

/** A remark on a curve that a reviewer must see. */
export interface CurveFlag {
  /**
   * Stable: `noise`, `saturation`, `coarse_step`, `missing_release`, `contact_bounce`, `early_contact`, `teasing`, `slip`,
   * `peak_after_actuation`, `no_approach`, `no_touch`, `zero_offset`, `surplus_stroke`; of a key (cycle 0):
   * `kind_mismatch`, `few_cycles`, `extra_key`; of the session (key "" and cycle 0): `press_speed`, `few_keys`.
   */
  readonly code: string;
  readonly message: string;
  readonly key: string;
  readonly cycle: number;
}

/** A curve as drawn: touch at 0 mm, simplified to far less than a pixel; never the basis of a number. */
export interface DrawnCurve {
  readonly press: readonly (readonly [mm: number, cN: number])[];
  readonly release: readonly (readonly [mm: number, cN: number])[];
}

export interface CycleReduction {
  readonly key: string;
  readonly cycle: number;
  /** Taken into the key's value by the method and not excluded by hand. */
  readonly used: boolean;
  /** Why it was not used; empty where it was. */
  readonly reason: string;
  readonly characteristics: KeyCharacteristics;
  readonly curve: DrawnCurve;
  readonly flags: readonly CurveFlag[];
  readonly evidence: Evidence;
}

/** One key of one session: the key's value of each characteristic is the mean of its used cycles. */
export interface KeyReduction extends KeyCharacteristics {
  readonly key: string;
  /** From the curve: a local peak of the method's prominence in most used cycles. */
  readonly curveKind: "linear" | "tactile" | "undecided";
  /** Evidence for the kind: largest fall of force from a local maximum before bottom-out, mean of the used cycles. */
  readonly prominence?: Measured<"cN">;
  readonly cycles: readonly CycleReduction[];
  /** Cycle number of the median cycle, the one that is drawn. */
  readonly medianCycle: number;
  readonly evidence: Evidence;
}

export interface KeystrokeReduction {
  readonly kind: "keystroke";
  readonly unit: string;
  readonly session: string;
  readonly method: string;
  /** In the method's order; keys that the session lacks are not here but in `missingKeys`. */
  readonly keys: readonly KeyReduction[];
  readonly missingKeys: readonly string[];
  /** The medoid: least sum of RMS force differences to the other keys (measurement model, section 2). */
  readonly representativeKey: string;
  readonly flags: readonly CurveFlag[];
}
