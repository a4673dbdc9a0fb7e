import { Quantity } from "../../metrology/quantity.js";
import { normalSource } from "../../metrology/source.js";
import type { Archive, Method, Rig, RigCheck } from "../../records/archive.js";
import type { Reductions, SessionReduction } from "./reductions.js";
import { reductionKey } from "./reductions.js";
import type { StudySubject } from "./study.js";
import { studySubject } from "./study.js";
import type { LabDescription, LimitView, SessionView, UnitDescription } from "./views.js";
import { labDescription, limitView, sessionView, unitDescription } from "./views.js";

/** `benchfolio/subject/rig`: what is in scope of a template whose subject is a rig. */
export interface RigScope {
  readonly rig: RigSubject;
  readonly lab: LabDescription;
}

export interface RigSubject extends Omit<Rig, "checks"> {
  /** Checks in order of date. */
  readonly checks: readonly CheckView[];
  /** Kinds of check in order of first appearance. */
  readonly checkKinds: readonly string[];
  /** Sessions that used the rig, oldest first. */
  readonly sessions: readonly RigSession[];
  /** Studies with readings from the rig; of each, these readings alone. */
  readonly studies: readonly StudySubject[];
  /** Methods of those sessions and studies, in the archive's order. */
  readonly methods: readonly Method[];
}

export interface CheckView extends Omit<RigCheck, "value" | "u" | "reference"> {
  readonly value: Quantity;
  readonly reference: Quantity;
}

export interface RigSession {
  readonly unit: UnitDescription;
  readonly session: SessionView;
  readonly reduction: SessionReduction | null;
  /** Limits that speak of this unit's kind of key, its own and the laboratory's. */
  readonly limits: readonly LimitView[];
}

/** Builds the scope of one rig. @throws RangeError where the archive has no such rig */
export function rigScope(archive: Archive, reductions: Reductions, rigId: string): RigScope {
  const rig = archive.rigs.get(rigId);
  if (rig === undefined) throw new RangeError(`the archive has no rig "${rigId}"`);
  const checks = [...rig.checks]
    .sort((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : a.evidence.firstLine - b.evidence.firstLine))
    .map((check) => checkView(rig.id, check));
  const sessions = archive.units.flatMap((unit) =>
    unit.sessions
      .filter((session) => session.rig === rigId)
      .map((session): RigSession => ({
        unit: unitDescription(unit),
        session: sessionView(session),
        reduction: reductions.get(reductionKey(unit.id, session.id)) ?? null,
        limits: [...unit.limits, ...archive.lab.limits]
          .map(limitView)
          .filter(({ switchKinds }) => switchKinds.length === 0 || switchKinds.includes(unit.switch.kind)),
      })),
  );
  sessions.sort((a, b) => (a.session.start < b.session.start ? -1 : a.session.start > b.session.start ? 1 : 0));
  const studies = archive.studies.flatMap((study) => {
    const readings = study.readings.filter((reading) => reading.rig === rigId);
    return readings.length === 0 ? [] : [studySubject({ ...study, readings })];
  });
  const used = new Set([
    ...sessions.map(({ session }) => session.method),
    ...studies.flatMap(({ readings }) => readings.map(({ method }) => method)),
  ]);
  return {
    rig: {
      ...rig,
      checks,
      checkKinds: [...new Set(checks.map(({ kind }) => kind))],
      sessions,
      studies,
      methods: [...archive.methods.values()].filter(({ id }) => used.has(id)),
    },
    lab: labDescription(archive.lab),
  };
}

function checkView(rig: string, check: RigCheck): CheckView {
  const { value, u, reference, ...rest } = check;
  const source = normalSource(
    `rig/${rig}/check/${check.evidence.firstLine}`,
    "Uncertainty of the check",
    u,
    check.symbol,
  );
  return {
    ...rest,
    value: new Quantity(value, check.symbol, u > 0 ? [{ source, contribution: u }] : [], check.evidence),
    reference: new Quantity(reference, check.symbol, [], check.evidence),
  };
}
