import { asMethod } from "../../src/build/as-method.js";
import { reduceTasks } from "../../src/build/reduce-archive.js";
import { reduceSession } from "../../src/build/reduce-session.js";
import type { KeystrokeReduction } from "../../src/keystroke/model.js";
import type { Archive, KeystrokeMethod, LatencyMethod } from "../../src/records/archive.js";
import type { Reductions, SessionReduction } from "../../src/templates/subject/reductions.js";
import { reductionKey } from "../../src/templates/subject/reductions.js";

/**
 * Reduces sessions in this process as stage one of a draft does: keystroke sessions first, a latency session with its
 * unit's newest keystroke reduction.
 * @param units only these units; null: all
 * @throws Error where a session's raw rows have errors
 */
export function reduceInProcess(archive: Archive, units: readonly string[] | null): Reductions {
  const reductions = new Map<string, SessionReduction>();
  const newest = new Map<string, { readonly start: string; readonly reduction: KeystrokeReduction }>();
  const tasks = reduceTasks(archive).filter(({ unit }) => units === null || units.includes(unit.id));
  for (const kind of ["keystroke", "latency"] as const) {
    for (const task of tasks) {
      const { unit, session } = task;
      const wanted = archive.methods.get(task.method);
      if (wanted?.kind !== kind) continue;
      const own = archive.methods.get(session.method) as KeystrokeMethod | LatencyMethod;
      const method = wanted.id === own.id ? own : asMethod<KeystrokeMethod | LatencyMethod>(own, wanted);
      const travel = kind === "latency" ? (newest.get(unit.id)?.reduction ?? null) : null;
      const { reduction } = reduceSession(archive, unit, session, method, travel);
      if (reduction === null) throw new Error(`the raw rows of ${unit.id}/${session.id} have errors`);
      reductions.set(task.name, reduction);
      const isOwn = task.name === reductionKey(unit.id, session.id);
      if (reduction.kind === "keystroke" && isOwn && session.start >= (newest.get(unit.id)?.start ?? "")) {
        newest.set(unit.id, { start: session.start, reduction });
      }
    }
  }
  return new Map([...reductions].sort(([a], [b]) => (a < b ? -1 : 1)));
}
