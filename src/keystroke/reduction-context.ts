import type { EvidenceRows } from "../metrology/evidence.js";
import type { Quantity } from "../metrology/quantity.js";
import type { Calibration, KeystrokeMethod, Rig, Session, Stated, StrokeExclusion, Unit } from "../records/archive.js";

/** What the reduction of a keystroke session must know beside its strokes. */
export interface ReductionContext {
  readonly unit: string;
  readonly session: string;
  readonly method: KeystrokeMethod;
  /** Rig and its calibration in force at the session's start; null where there is none: nothing is corrected then. */
  readonly rig: { readonly id: string; readonly calibration: Pick<Calibration, "date" | "terms" | "evidence"> | null };
  /** Who said that the contact was closed; `none`: the contact column is not used. */
  readonly contactSource: "electrical" | "report" | "none";
  readonly pressSpeed?: Stated<"mm/s"> | undefined;
  readonly exclusions: readonly StrokeExclusion[];
  /** Kind of switch by the unit's description; compared with the curve. */
  readonly describedKind?: "linear" | "tactile" | "clicky" | undefined;
  /** Latency of the report path, for `report`; where absent, 0 to 30 ms are assumed. */
  readonly reportLatency?: Quantity<"ms"> | undefined;
  /** The line that states the session, for the evidence. */
  readonly evidence?: EvidenceRows | undefined;
}

/** Prefix of the ids of sources that belong to one session. */
export function sessionPath(context: Pick<ReductionContext, "unit" | "session">): string {
  return `session/${context.unit}/${context.session}`;
}

/**
 * The calibration in force on a date: the latest one that began on or before it; null where none had begun. An expired
 * one is still in force here; whoever shows it says so.
 * @param date ISO 8601, only its day is used
 */
export function calibrationInForce(rig: Pick<Rig, "calibrations">, date: string): Calibration | null {
  const day = date.slice(0, 10);
  const begun = rig.calibrations.filter((calibration) => calibration.date.slice(0, 10) <= day);
  return begun.reduce<Calibration | null>(
    (latest, each) => (latest === null || each.date > latest.date ? each : latest),
    null,
  );
}

/** Collects the context of a keystroke session from the archive's own descriptions. */
export function reductionContext(
  unit: Pick<Unit, "id" | "switch">,
  session: Pick<Session, "id" | "rig" | "start" | "contactSource" | "pressSpeed" | "exclusions" | "evidence">,
  method: KeystrokeMethod,
  rig: Pick<Rig, "calibrations"> | null,
): ReductionContext {
  return {
    unit: unit.id,
    session: session.id,
    method,
    rig: { id: session.rig, calibration: rig === null ? null : calibrationInForce(rig, session.start) },
    contactSource: session.contactSource,
    pressSpeed: session.pressSpeed,
    exclusions: session.exclusions,
    describedKind: unit.switch.kind,
    evidence: session.evidence,
  };
}
