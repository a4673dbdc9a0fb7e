import type { KeystrokeReduction } from "../keystroke/model.js";
import { pack, unpack } from "../metrology/pack.js";
import type { Packed } from "../metrology/pack.js";
import type { Archive, Session, Unit } from "../records/archive.js";
import type { Problem } from "../records/problem.js";
import type { SessionReduction } from "../templates/subject/reductions.js";
import { anewKey, reductionKey } from "../templates/subject/reductions.js";
import { openPool } from "./pool.js";
import type { ReduceJob } from "./reduce-child.js";
import type { ReducedSession } from "./reduce-session.js";
import type { Store } from "./store.js";
import { storeKey } from "./store.js";
import type { Tool } from "./tool.js";

export interface ReduceOptions {
  readonly workers: number;
  readonly store: Store;
  readonly tool: Tool;
  /** Called once a session, reduced or found in the store. */
  readonly onSession: () => void;
}

export interface ReducedArchive {
  readonly reductions: ReadonlyMap<string, SessionReduction>;
  readonly problems: readonly Problem[];
  /** Sessions that the store already held. */
  readonly reused: number;
}

interface Task {
  readonly unit: Unit;
  readonly session: Session;
  readonly method: string;
  /** Under which the result is filed. */
  readonly name: string;
}

/**
 * Stage one: reduces every session of the archive, keystroke sessions first, because a latency session subtracts the
 * travel of its key. What the store holds is not computed again.
 */
export async function reduceArchive(archive: Archive, options: ReduceOptions): Promise<ReducedArchive> {
  const tasks = reduceTasks(archive);
  const kindOf = (task: Task): string | undefined => archive.methods.get(task.method)?.kind;
  const pool = openPool<ReduceJob, Packed>(new URL("./reduce-child.js", import.meta.url), {
    size: options.workers,
    init: archive,
  });
  const reductions = new Map<string, SessionReduction>();
  const problems: Problem[] = [];
  let reused = 0;
  const reduce = async (task: Task): Promise<void> => {
    const upstream = kindOf(task) === "latency" ? newestKeystroke(archive, task.unit, reductions) : null;
    const key = keyOf(archive, task, upstream, options.tool);
    let packed = options.store.read(key);
    if (packed === null) {
      const keystroke = upstream === null ? null : pack(upstream.reduction);
      packed = await pool.run({ unit: task.unit.id, session: task.session.id, method: task.method, keystroke });
      options.store.write(key, packed);
    } else {
      reused++;
    }
    const { reduction, problems: found } = unpack(packed) as ReducedSession;
    if (reduction !== null) reductions.set(task.name, reduction);
    if (task.method === task.session.method) problems.push(...found);
    options.onSession();
  };
  try {
    await Promise.all(tasks.filter((task) => kindOf(task) === "keystroke").map(reduce));
    await Promise.all(tasks.filter((task) => kindOf(task) === "latency").map(reduce));
  } finally {
    pool.close();
  }
  problems.sort((a, b) => compare(a.file, b.file) || a.line - b.line || a.column - b.column || compare(a.code, b.code));
  return { reductions: sorted(reductions), problems, reused };
}

/** Every session under its own method, and those of a replaced method under the one that replaced it as well. */
export function reduceTasks(archive: Archive): readonly Task[] {
  const successors = [...archive.methods.values()].filter(({ replaces }) => replaces !== undefined);
  return archive.units.flatMap((unit) =>
    unit.sessions.flatMap((session): Task[] => [
      { unit, session, method: session.method, name: reductionKey(unit.id, session.id) },
      ...successors
        .filter(({ replaces }) => replaces === session.method)
        .map(({ id }) => ({ unit, session, method: id, name: anewKey(unit.id, session.id, id) })),
    ]),
  );
}

/** The unit's newest reduced keystroke session: it measured the key as it is now. */
function newestKeystroke(
  archive: Archive,
  unit: Unit,
  reductions: ReadonlyMap<string, SessionReduction>,
): { session: Session; reduction: KeystrokeReduction } | null {
  const found = unit.sessions
    .filter((session) => archive.methods.get(session.method)?.kind === "keystroke")
    .map((session) => ({ session, reduction: reductions.get(reductionKey(unit.id, session.id)) }))
    .filter((each): each is { session: Session; reduction: KeystrokeReduction } => each.reduction?.kind === "keystroke")
    .sort((a, b) => compare(a.session.start, b.session.start) || compare(a.session.id, b.session.id));
  return found.at(-1) ?? null;
}

/** Hash of everything that decides a reduced session: raw files, descriptions, method, rig, and what it builds on. */
function keyOf(archive: Archive, task: Task, upstream: { session: Session } | null, tool: Tool): string {
  const folders = [task.session.folder, ...(upstream === null ? [] : [upstream.session.folder])];
  const upstreamFiles = upstream === null ? [] : descriptions(archive, upstream.session.method, upstream.session.rig);
  const wanted = new Set([
    task.unit.file,
    ...descriptions(archive, task.method, task.session.rig),
    ...descriptions(archive, task.session.method, task.session.rig),
    ...upstreamFiles,
    ...[...archive.files.keys()].filter((path) => folders.some((folder) => path.startsWith(`${folder}/`))),
  ]);
  const files = [...wanted].map((path) => ({ path, sha256: archive.files.get(path)?.sha256 ?? "absent" }));
  return storeKey({ version: tool.version, digest: tool.reductionDigest, files });
}

function descriptions(archive: Archive, method: string, rig: string): string[] {
  return [archive.methods.get(method)?.file, archive.rigs.get(rig)?.file].filter((file) => file !== undefined);
}

function sorted<V>(map: ReadonlyMap<string, V>): ReadonlyMap<string, V> {
  return new Map([...map].sort(([a], [b]) => compare(a, b)));
}

function compare(a: string, b: string): number {
  return a === b ? 0 : a < b ? -1 : 1;
}
