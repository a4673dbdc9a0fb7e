import type { KeyCharacteristic, KeystrokeReduction } from "../../keystroke/model.js";
import type { LatencyReduction } from "../../latency/model.js";
import type { Archive, KeystrokeMethod, LatencyMethod, Session, Unit } from "../../records/archive.js";
import type { Reductions, SessionReduction } from "./reductions.js";
import { keyCharacteristics, reductionKey } from "./reductions.js";
import type { RigSubject } from "./rig.js";
import { rigScope } from "./rig.js";
import type { StudySubject } from "./study.js";
import { studySubject } from "./study.js";
import type { LabDescription, LimitView, SessionView, UnitDescription } from "./views.js";
import { labDescription, limitView, sessionView, unitDescription } from "./views.js";

/** `benchfolio/subject/unit`: what is in scope of a template whose subject is a unit. */
export interface UnitScope {
  readonly unit: UnitSubject;
  /**
   * The keystroke method of the unit's current session; where it has none, the first that the template names. A template
   * for archives that may have no keystroke method asks `methods.keystroke`: this name throws then.
   */
  readonly method: KeystrokeMethod;
  /** The same by kind; null where the archive has no method of that kind. */
  readonly methods: { readonly keystroke: KeystrokeMethod | null; readonly latency: LatencyMethod | null };
  readonly lab: LabDescription;
}

/** Limits by characteristic; an empty list where none is stated. */
export type LimitsByCharacteristic = Readonly<Record<KeyCharacteristic | "latency", readonly LimitView[]>>;

export interface UnitSubject extends UnitDescription {
  /** Every session, oldest first. */
  readonly sessions: readonly SessionView[];
  /** The unit's latest session under the first of the template's methods that it was measured by. */
  readonly current: CurrentResults;
  /** Data-sheet and ergonomic limits that speak of this unit's kind of key. */
  readonly limits: LimitsByCharacteristic;
  /** Reduced sessions under one method, oldest first; empty where the unit was never measured by it. */
  under(method: string): readonly SessionReduction[];
  /** A rig that the archive describes, as its own record sees it; null where it has no such rig. */
  rig(id: string): RigSubject | null;
  /** Designed studies of the archive, whatever unit they are about. */
  studies(): readonly StudySubject[];
}

export interface CurrentResults {
  /** Without keys where the unit has no keystroke session. */
  readonly keystroke: KeystrokeReduction;
  readonly keystrokeSession: SessionView | null;
  /** Without connections where the unit has no latency session. */
  readonly latency: LatencyReduction;
  readonly latencySession: SessionView | null;
}

/**
 * Builds the scope of one unit.
 * @param methods method ids of the template's front matter, most wanted first
 * @throws RangeError where the archive has no such unit
 */
export function unitScope(
  archive: Archive,
  reductions: Reductions,
  unitId: string,
  methods: readonly string[],
): UnitScope {
  const unit = archive.units.find((each) => each.id === unitId);
  if (unit === undefined) throw new RangeError(`the archive has no unit "${unitId}"`);
  const subject = unitSubject(archive, reductions, unit, methods);
  const keystroke = methodOf<KeystrokeMethod>(archive, "keystroke", subject.current.keystroke.method, methods);
  const latency = methodOf<LatencyMethod>(archive, "latency", subject.current.latency.method, methods);
  return {
    unit: subject,
    get method() {
      if (keystroke === null) {
        throw new RangeError("the archive has no keystroke method; methods.keystroke is null then and can be asked");
      }
      return keystroke;
    },
    methods: { keystroke, latency },
    lab: labDescription(archive.lab),
  };
}

export function unitSubject(
  archive: Archive,
  reductions: Reductions,
  unit: Unit,
  methods: readonly string[],
): UnitSubject {
  const sessions = [...unit.sessions].sort(byStart);
  const reduced = (session: Session): SessionReduction | undefined => reductions.get(reductionKey(unit.id, session.id));
  const newest = (kind: SessionReduction["kind"]): Session | undefined => {
    const wanted = methods.filter((id) => archive.methods.get(id)?.kind === kind);
    for (const id of wanted) {
      const found = sessions.filter((each) => each.method === id && reduced(each) !== undefined).at(-1);
      if (found !== undefined) return found;
    }
    return undefined;
  };
  const keystroke = newest("keystroke");
  const latency = newest("latency");
  const limits = [...unit.limits, ...archive.lab.limits]
    .map(limitView)
    .filter(({ switchKinds }) => switchKinds.length === 0 || switchKinds.includes(unit.switch.kind));
  return {
    ...unitDescription(unit),
    sessions: sessions.map(sessionView),
    current: {
      keystroke: (keystroke && (reduced(keystroke) as KeystrokeReduction)) ?? noKeystroke(unit.id),
      keystrokeSession: keystroke === undefined ? null : sessionView(keystroke),
      latency: (latency && (reduced(latency) as LatencyReduction)) ?? noLatency(unit.id),
      latencySession: latency === undefined ? null : sessionView(latency),
    },
    limits: Object.fromEntries(
      [...keyCharacteristics, "latency" as const].map((name) => [
        name,
        limits.filter((limit) => limit.characteristic === name),
      ]),
    ) as unknown as LimitsByCharacteristic,
    under: (method) =>
      sessions
        .filter((each) => each.method === method)
        .map(reduced)
        .filter((each) => each !== undefined),
    rig: (id) => (archive.rigs.has(id) ? rigScope(archive, reductions, id).rig : null),
    studies: () => archive.studies.map(studySubject),
  };
}

function byStart(a: Session, b: Session): number {
  if (a.start !== b.start) return a.start < b.start ? -1 : 1;
  return a.id < b.id ? -1 : 1;
}

function methodOf<M extends KeystrokeMethod | LatencyMethod>(
  archive: Archive,
  kind: M["kind"],
  used: string,
  wanted: readonly string[],
): M | null {
  const ids = [used, ...wanted, ...[...archive.methods.keys()].reverse()];
  const found = ids.map((id) => archive.methods.get(id)).find((each) => each?.kind === kind);
  return (found as M | undefined) ?? null;
}

function noKeystroke(unit: string): KeystrokeReduction {
  return {
    kind: "keystroke",
    unit,
    session: "",
    method: "",
    keys: [],
    missingKeys: [],
    representativeKey: "",
    flags: [],
  };
}

function noLatency(unit: string): LatencyReduction {
  return { kind: "latency", unit, session: "", method: "", connections: [], baseline: null, contents: [], warnings: [] };
}
