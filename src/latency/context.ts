import type { Measured } from "../metrology/quantity.js";
import type { Calibration, ConnectionSettings, LatencyMethod, Stated } from "../records/archive.js";
import type { EvidenceRows } from "../metrology/evidence.js";

/** The pre-travel that the travel term uses for one key, and whose it is. */
export interface PreTravelInput {
  readonly preTravel: Measured<"mm">;
  readonly of: "pressed_key" | "mean_of_other_keys" | "data_sheet";
}

/** Name of the pressed key where a session of timings does not say which it was; `preTravel` may hold an entry for it. */
export const unnamedKey = "the pressed key";

/** A reader's own offset of the interval response minus contact, known from a study of readers. */
export interface ReaderOffsetStudy {
  /** Standard deviation of one reader's offset among readers, in frames. */
  readonly sdFrames: number;
  readonly dof: number;
  /** Path-like id of the study: `study/readers-1`. */
  readonly id: string;
  readonly evidence: EvidenceRows;
}

/**
 * What the reduction of a latency session must know beside its readings. Values come from session.yaml, the method, the
 * rig's calibration in force on the day and the keystroke sessions; a missing one makes a term absent or wider, never
 * zero in silence.
 */
export interface LatencyContext {
  readonly unit: string;
  readonly session: string;
  readonly method: LatencyMethod;
  /** Rig and its calibration in force at the session's start; null where there is none. */
  readonly rig: { readonly id: string; readonly calibration: Pick<Calibration, "date" | "terms" | "evidence"> | null };
  /** Settings per connection, as session.yaml states them. */
  readonly settings: Readonly<Record<string, ConnectionSettings>>;
  readonly refreshRate?: Stated<"Hz"> | undefined;
  /** Rate at which the keyboard scans its matrix, where stated. */
  readonly scanRate?: Stated<"Hz"> | undefined;
  /** Rate at which the observed application draws, where stated. */
  readonly applicationRate?: Stated<"Hz"> | undefined;
  readonly pressInterval?: Stated<"ms"> | undefined;
  /** Standard deviation of the press interval that the rig adds on purpose. */
  readonly pressIntervalJitter?: Stated<"ms"> | undefined;
  /** session.yaml's plunger speed; only compared with the rig's calibration or the film. */
  readonly nominalPlungerSpeed?: Stated<"mm/s"> | undefined;
  /** Press speed at which the pre-travel was measured. */
  readonly testerSpeed?: Stated<"mm/s"> | undefined;
  /** By key code. */
  readonly preTravel: Readonly<Record<string, PreTravelInput>>;
  /** Key pressed in a session of timings, whose rows name none; default: the only key of `preTravel`, else `unnamedKey`. */
  readonly timingKey?: string | undefined;
  /** Position of the plunger's mark after contact; default: the pre-travel itself, at which the mark is set. */
  readonly markPosition?: Stated<"mm"> | undefined;
  /** Tester's touch to contact on film, + where film sees contact later; default 0 ± one frame's travel, rectangular. */
  readonly zeroOffset?: { readonly value: Stated<"mm">; readonly halfWidth: Stated<"mm"> } | undefined;
  readonly readerOffset?: ReaderOffsetStudy | undefined;
  /**
   * Half-width of the change of pre-travel per factor of ten between tester and plunger speed, as a share of the
   * pre-travel; default 0.01. An assumption, in the budget as such.
   */
  readonly speedEffectPerDecade?: number | undefined;
}

/** Prefix of the ids of sources that belong to one session. */
export function sessionPath(context: Pick<LatencyContext, "unit" | "session">): string {
  return `session/${context.unit}/${context.session}`;
}
