import { realpathSync, statSync } from "node:fs";
import { resolve } from "node:path";
import type { Archive, ArchiveFile, Lab, Method, Rig, Session, Study, Unit } from "./archive.js";
import type { ArchiveTree } from "./archive-tree.js";
import { readArchiveTree } from "./archive-tree.js";
import { checkMethods } from "./check-methods.js";
import { checkReceipt } from "./check-receipt.js";
import { checkSession } from "./check-session.js";
import type { KnownNames } from "./known-names.js";
import { nearestName } from "./nearest.js";
import { compareText } from "./problem.js";
import type { ReadRowsOptions } from "./problem-collector.js";
import { ProblemCollector } from "./problem-collector.js";
import type { Described, ReadingContext } from "./read-description.js";
import { readingContext } from "./read-description.js";
import { readLab, unreadLab } from "./read-lab.js";
import { methodIdOf, readMethod } from "./read-method.js";
import { readRig } from "./read-rig.js";
import { readSession } from "./read-session.js";
import type { SizeLimits } from "./read-source.js";
import { hashFile, sizeLimits, systemReason } from "./read-source.js";
import { readStudy } from "./read-study.js";
import { missingFileRemedy } from "./remedies.js";
import { readUnit } from "./read-unit.js";
import { startOf } from "./source-text.js";

export interface ReadArchiveOptions extends ReadRowsOptions {
  /** The most that is read of one file, in bytes; default 1 MB of YAML, 256 MB of CSV. */
  readonly limits?: Partial<SizeLimits>;
}

/**
 * Reads every description of an archive (lab, methods, rigs with their checks, units with their sessions, studies with
 * their readings), the sha256 of every file, and checks what they say by themselves and about each other. The rows of
 * sessions are not read: see `readStrokes`, `readLatency`, `checkArchive`.
 *
 * All problems are collected. What could not be read is not in the archive; where one is an error, the archive is not
 * fit for a result. Never throws on what an archive holds.
 *
 * @param root path of the archive's folder
 * @throws RangeError on an unknown option
 */
export function readArchive(root: string, options: ReadArchiveOptions = {}): Archive {
  for (const name of Object.keys(options)) {
    if (name === "limits" || name === "problemsPerCode") continue;
    const near = nearestName(name, ["limits", "problemsPerCode"]);
    throw new RangeError(`readArchive has no option "${name}"${near === undefined ? "" : `; did you mean "${near}"?`}`);
  }
  const problems = new ProblemCollector(options.problemsPerCode);
  const realRoot = folderAt(root, problems);
  if (realRoot === undefined) return emptyArchive(root, problems);
  const context = readingContext(realRoot, { ...sizeLimits, ...options.limits }, problems);
  return new ArchiveReader(context, readArchiveTree(realRoot, problems)).read();
}

function folderAt(root: string, problems: ProblemCollector): string | undefined {
  try {
    const real = realpathSync(root);
    if (statSync(real).isDirectory()) return real;
    problems.add("E_ARCHIVE_ABSENT", startOf("."), { found: "this is not a folder" });
  } catch (error) {
    problems.add("E_ARCHIVE_ABSENT", startOf("."), { found: systemReason(error) });
  }
  return undefined;
}

function emptyArchive(root: string, problems: ProblemCollector): Archive {
  const nothing = { methods: new Map(), rigs: new Map(), units: [], studies: [], files: new Map() };
  return { root: resolve(root), lab: unreadLab, ...nothing, problems: problems.list() };
}

/** Reads the parts of an archive in the order in which they refer to each other. */
class ArchiveReader {
  readonly #context: ReadingContext;
  readonly #tree: ArchiveTree;

  constructor(context: ReadingContext, tree: ArchiveTree) {
    this.#context = context;
    this.#tree = tree;
  }

  read(): Archive {
    const { root, problems } = this.#context;
    const lab = this.#lab();
    const methods = this.#tree.methods.flatMap((file) => readMethod(this.#context, file) ?? []);
    const units = this.#units();
    const known = this.#known(lab, methods, units);
    const rigs = this.#rigs(known);
    const studies = this.#studies(known);
    checkMethods(methods, known.methods, problems);
    const [methodsById, rigsById] = [byId(methods), byId(rigs)];
    const withSessions = this.#tree.units.flatMap((folder) => {
      const unit = units.find((each) => each.folder === folder.id)?.unit.value;
      const sessions = this.#sessions(folder);
      const around = { known, lab, unitFolder: folder.id, unit, methods: methodsById, rigs: rigsById };
      for (const session of sessions) checkSession(session, around, problems);
      return unit === undefined ? [] : [{ ...unit, sessions: sessions.map((session) => session.value) }];
    });
    const files = this.#hashes();
    this.#receipts(files);
    return {
      root,
      lab: lab ?? unreadLab,
      methods: methodsById,
      rigs: rigsById,
      units: withSessions,
      studies,
      files,
      problems: problems.list(),
    };
  }

  #missing(expected: string): void {
    this.#context.problems.add("E_FILE_MISSING", startOf(expected), { expected, hint: missingFileRemedy(expected) });
  }

  #lab(): Lab | undefined {
    if (this.#tree.hasLab) return readLab(this.#context)?.value;
    this.#missing("lab.yaml");
    return undefined;
  }

  #units(): readonly { readonly folder: string; readonly unit: Described<Unit> }[] {
    if (this.#tree.units.length === 0) this.#context.problems.add("W_ARCHIVE_EMPTY", startOf("units"));
    return this.#tree.units.flatMap(({ id, files }) => {
      if (!files.includes("unit.yaml")) this.#missing(`units/${id}/unit.yaml`);
      const unit = files.includes("unit.yaml") ? readUnit(this.#context, id) : undefined;
      return unit === undefined ? [] : [{ folder: id, unit }];
    });
  }

  #sessions(folder: ArchiveTree["units"][number]): readonly Described<Session>[] {
    return folder.sessions.flatMap(({ id, files }) => {
      if (files.includes("session.yaml")) {
        const raw = files.filter((name) => name !== "session.yaml");
        return readSession(this.#context, folder.id, id, raw) ?? [];
      }
      this.#missing(`units/${folder.id}/${id}/session.yaml`);
      return [];
    });
  }

  #receipts(hashes: ReadonlyMap<string, ArchiveFile>): void {
    const there = new Set(this.#tree.files);
    for (const unit of this.#tree.units) {
      for (const { id, received } of unit.sessions) {
        checkReceipt(this.#context, { folder: `units/${unit.id}/${id}`, received, there, hashes });
      }
    }
  }

  #known(
    lab: Lab | undefined,
    methods: readonly Described<Method>[],
    units: readonly { readonly folder: string; readonly unit: Described<Unit> }[],
  ): KnownNames {
    const methodIds = [...methods.map((method) => method.value.id), ...this.#tree.methods.map(methodIdOf)];
    return {
      roles: lab && Object.keys(lab.roles),
      methods: [...new Set(methodIds)].sort(compareText),
      rigs: this.#tree.rigs.map((rig) => rig.id),
      units: this.#tree.units.map((unit) => unit.id),
      connectionsOf: (id) => units.find(({ folder }) => folder === id)?.unit.value.connections,
    };
  }

  #rigs(known: KnownNames): readonly Described<Rig>[] {
    return this.#tree.rigs.flatMap(({ id, files }) => {
      if (files.includes("rig.yaml")) return readRig(this.#context, id, files.includes("checks.csv"), known) ?? [];
      this.#missing(`rigs/${id}/rig.yaml`);
      return [];
    });
  }

  #studies(known: KnownNames): readonly Study[] {
    return this.#tree.studies.flatMap(({ id, files }) => {
      for (const name of ["study.yaml", "readings.csv"]) {
        if (!files.includes(name)) this.#missing(`studies/${id}/${name}`);
      }
      if (!files.includes("study.yaml")) return [];
      return readStudy(this.#context, id, files.includes("readings.csv"), known)?.value ?? [];
    });
  }

  #hashes(): ReadonlyMap<string, ArchiveFile> {
    const files = this.#tree.files.flatMap((path) => {
      try {
        return [[path, hashFile(this.#context.root, path)] as const];
      } catch (error) {
        this.#context.problems.add("E_FILE_UNREADABLE", startOf(path), { found: systemReason(error) });
        return [];
      }
    });
    return new Map(files);
  }
}

/** Descriptions by id, in the order of their ids; of two with one id the first counts (the other's id is a problem). */
function byId<T extends { readonly id: string }>(described: readonly Described<T>[]): ReadonlyMap<string, T> {
  const ordered = new Map<string, T>();
  for (const { value } of [...described].sort((a, b) => compareText(a.value.id, b.value.id))) {
    if (!ordered.has(value.id)) ordered.set(value.id, value);
  }
  return ordered;
}
