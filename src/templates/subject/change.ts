import type { Archive, Method, Session } from "../../records/archive.js";
import type { Reductions, SessionReduction } from "./reductions.js";
import { anewKey, reductionKey } from "./reductions.js";
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
 * @throws RangeError where that method is not there or replaces none
 */
export function changeScope(archive: Archive, reductions: Reductions, methodId: string): ChangeScope {
  const to = archive.methods.get(methodId);
  const from = to?.replaces === undefined ? undefined : archive.methods.get(to.replaces);
  if (to === undefined || from === undefined) throw new RangeError(`"${methodId}" is no method that replaces another`);
  const units = archive.units.flatMap((unit): ChangedUnit[] => {
    const newest = (method: string): Session | undefined =>
      [...unit.sessions]
        .filter((session) => session.method === method)
        .sort((a, b) => (a.start < b.start ? -1 : a.start > b.start ? 1 : 0))
        .at(-1);
    const before = newest(from.id);
    const after = newest(to.id);
    if (before === undefined && after === undefined) return [];
    const reduced = (session: Session | undefined): SessionReduction | null =>
      session === undefined ? null : (reductions.get(reductionKey(unit.id, session.id)) ?? null);
    const anew = before === undefined ? undefined : reductions.get(anewKey(unit.id, before.id, to.id));
    const standing =
      after === undefined ? (unit.status === "held" ? "pending" : "out_of_reach") : before === undefined ? "new" : "retested";
    return [
      {
        ...unitDescription(unit),
        standing,
        before: reduced(before),
        beforeSession: before === undefined ? null : sessionView(before),
        beforeAnew: anew ?? null,
        after: reduced(after),
        afterSession: after === undefined ? null : sessionView(after),
        differences: before === undefined || after === undefined ? [] : differencesBetween(before, after),
      },
    ];
  });
  return { change: { name: `${from.id} to ${to.id}`, from, to, units }, lab: labDescription(archive.lab) };
}

function differencesBetween(before: Session, after: Session): readonly string[] {
  const compare = (what: string, old: string, now: string): readonly string[] =>
    old === now ? [] : [`${what} was ${old} and is ${now}`];
  const speed = (session: Session): string =>
    session.pressSpeed === undefined ? "not recorded" : `${session.pressSpeed.value} ${session.pressSpeed.symbol}`;
  return [
    ...compare("firmware", before.firmware, after.firmware),
    ...compare("driver", before.driver, after.driver),
    ...compare("contact source", before.contactSource, after.contactSource),
    ...compare("press speed", speed(before), speed(after)),
  ];
}
