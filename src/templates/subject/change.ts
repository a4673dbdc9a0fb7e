import type { Archive, Method, ScoringMethod, Session } from "../../records/archive.js";
import { betweenSessions, tellsOfBetween } from "./between-sessions.js";
import type { Reductions, SessionReduction } from "./reductions.js";
import { anewKey, reductionKey } from "./reductions.js";
import type { StudySubject } from "./study.js";
import { studySubject } from "./study.js";
import type { LabDescription, SessionView, UnitDescription } from "./views.js";
import { labDescription, sessionView, unitDescription } from "./views.js";

/** `benchfolio/subject/change`: what is in scope of a template whose subject is a change of method. */
export interface ChangeScope {
  readonly change: ChangeSubject;
  readonly lab: LabDescription;
}

/** One method that replaced another, and every unit that either measured. */
export interface ChangeSubject {
  /** `keystroke@1 to keystroke@2`. */
  readonly name: string;
  readonly from: Method;
  readonly to: Method;
  readonly units: readonly ChangedUnit[];
  /** Methods of the template's front matter that the lab took up with or after the old one and that replace nothing. */
  readonly added: readonly Method[];
  /** Scoring in force when the new method came, and the one that replaced it, else the same; null where there is none. */
  readonly scoring: { readonly before: ScoringMethod | null; readonly after: ScoringMethod | null };
  /** Designed studies of the archive, which may tell how much mounting a unit anew scatters. */
  readonly studies: readonly StudySubject[];
}

export interface ChangedUnit extends UnitDescription {
  /** `retested`: measured by both; `pending`: by the old one alone, held; `out_of_reach`: not held any more; `new`: only by the new one. */
  readonly standing: "retested" | "pending" | "out_of_reach" | "new";
  /** Newest session by the old method, as it was published. */
  readonly before: SessionReduction | null;
  readonly beforeSession: SessionView | null;
  /** The old session's raw rows and keys, reduced as the new method says. */
  readonly beforeAnew: SessionReduction | null;
  /** Newest session by the new method. */
  readonly after: SessionReduction | null;
  readonly afterSession: SessionView | null;
  /** What differs between the sessions beside the method, as clauses; a unit with any stands apart. */
  readonly differences: readonly string[];
  /** What one of the two records or both leave out, as clauses, so that a change beside the method cannot be ruled out. */
  readonly unsettled: readonly string[];
  /**
   * The unit's own note where a time that it names reaches into that between the sessions, else empty. What it tells of is no
   * effect of the method, so the unit is not used for that; whether it moved is asked all the same.
   */
  readonly happened: string;
  /** Newest reduced session by each of the added methods that measured the unit. */
  readonly added: readonly SessionReduction[];
}

/** Changes of method in an archive, as the ids of their new methods; a scoring method measures nothing and is not one. */
export function changesOf(archive: Archive): readonly string[] {
  return [...archive.methods.values()]
    .filter(({ kind, replaces }) => kind !== "scoring" && replaces !== undefined && archive.methods.has(replaces))
    .map(({ id }) => id);
}

/**
 * Builds the scope of one change of method.
 * @param methodId the new method
 * @param wanted method ids of the template's front matter: those that measure something new count as added
 * @throws RangeError where that method is not there or replaces none
 */
export function changeScope(
  archive: Archive,
  reductions: Reductions,
  methodId: string,
  wanted: readonly string[] = [],
): ChangeScope {
  return { change: changeSubject(archive, reductions, methodId, wanted), lab: labDescription(archive.lab) };
}

/** What is told of one change of method; see `changeScope`. */
export function changeSubject(
  archive: Archive,
  reductions: Reductions,
  methodId: string,
  wanted: readonly string[] = [],
): ChangeSubject {
  const to = archive.methods.get(methodId);
  const from = to?.replaces === undefined ? undefined : archive.methods.get(to.replaces);
  if (to === undefined || from === undefined) throw new RangeError(`"${methodId}" is no method that replaces another`);
  const added = addedMethods(archive, { from, to }, wanted);
  const units = archive.units.flatMap((unit): ChangedUnit[] => {
    const newest = (method: string): Session | undefined => newestSession(unit.sessions, method);
    const before = newest(from.id);
    const after = newest(to.id);
    if (before === undefined && after === undefined) return [];
    const reduced = (session: Session | undefined): SessionReduction | null =>
      session === undefined ? null : (reductions.get(reductionKey(unit.id, session.id)) ?? null);
    const anew = before === undefined ? undefined : reductions.get(anewKey(unit.id, before.id, to.id));
    const standing =
      after === undefined ? (unit.status === "held" ? "pending" : "out_of_reach") : before === undefined ? "new" : "retested";
    const isBoth = before !== undefined && after !== undefined;
    const between = isBoth ? betweenSessions(before, after, to.kind) : { differences: [], unsettled: [] };
    const isTold = isBoth && tellsOfBetween(unit.statusNote, dayOf(before), dayOf(after));
    return [
      {
        ...unitDescription(unit),
        standing,
        before: reduced(before),
        beforeSession: before === undefined ? null : sessionView(before),
        beforeAnew: anew ?? null,
        after: reduced(after),
        afterSession: after === undefined ? null : sessionView(after),
        ...between,
        happened: isTold ? unit.statusNote : "",
        added: added.flatMap(({ id }) => reduced(newest(id)) ?? []),
      },
    ];
  });
  return {
    name: `${from.id} to ${to.id}`,
    from,
    to,
    units,
    added,
    scoring: scoringAround(archive, to.since),
    studies: archive.studies.map(studySubject),
  };
}

function newestSession(sessions: readonly Session[], method: string): Session | undefined {
  return [...sessions]
    .filter((session) => session.method === method)
    .sort((a, b) => (a.start < b.start ? -1 : a.start > b.start ? 1 : 0))
    .at(-1);
}

function dayOf({ start }: Session): string {
  return start.slice(0, 10);
}

function addedMethods(
  archive: Archive,
  { from, to }: { readonly from: Method; readonly to: Method },
  wanted: readonly string[],
): readonly Method[] {
  return wanted.flatMap((id) => {
    const method = archive.methods.get(id);
    const isNew = method !== undefined && method.kind !== "scoring" && method.replaces === undefined;
    return isNew && id !== from.id && id !== to.id && method.since >= from.since ? [method] : [];
  });
}

/** The scoring in force on a day, else the earliest; and the one that replaced it. */
function scoringAround(archive: Archive, day: string): ChangeSubject["scoring"] {
  const all = [...archive.methods.values()]
    .filter((method) => method.kind === "scoring")
    .sort((a, b) => (a.since < b.since ? -1 : a.since > b.since ? 1 : a.id < b.id ? -1 : 1));
  const before = all.filter(({ since }) => since < day).at(-1) ?? all[0] ?? null;
  const after = all.find(({ replaces }) => before !== null && replaces === before.id) ?? before;
  return { before, after };
}
