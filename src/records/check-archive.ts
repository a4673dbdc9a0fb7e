import type { Archive } from "./archive.js";
import { readArchiveTree } from "./archive-tree.js";
import type { Problem } from "./problem.js";
import { ProblemCollector } from "./problem-collector.js";
import type { ReadArchiveOptions } from "./read-archive.js";
import { readArchive } from "./read-archive.js";
import { readLatency } from "./read-latency.js";
import { readSessionTable } from "./read-session-table.js";
import { forceFile, readStrokes } from "./read-strokes.js";
import { baselineSchema } from "./schemas/baseline.js";
import { filmsSchema } from "./schemas/films.js";
import { forceSchema } from "./schemas/force.js";
import { pressesSchema } from "./schemas/presses.js";
import type { TableSchema } from "./schemas/table-schema.js";
import { timingsSchema } from "./schemas/timings.js";

/** The schema of each raw file of a session. */
export const sessionTables: Readonly<Record<string, TableSchema>> = {
  [forceFile]: forceSchema,
  "presses.csv": pressesSchema,
  "films.csv": filmsSchema,
  "baseline.csv": baselineSchema,
  "timings.csv": timingsSchema,
};

export interface ArchiveCheck {
  readonly archive: Archive;
  /** Everything that is wrong, descriptions and rows, sorted by file, line and column. */
  readonly problems: readonly Problem[];
}

/**
 * Reads an archive as `readArchive` does, and every row of every session besides. Rows of a session whose description
 * could not be read are checked by themselves. Never throws on what an archive holds.
 */
export function checkArchive(root: string, options: ReadArchiveOptions = {}): ArchiveCheck {
  const archive = readArchive(root, options);
  const problems = new ProblemCollector(options.problemsPerCode);
  problems.addAll(archive.problems);
  const sessions = archive.units.flatMap((unit) => unit.sessions);
  for (const session of sessions) {
    if (session.files.includes(forceFile)) problems.addAll(readStrokes(archive, session, options).problems);
    if (session.files.some((name) => name !== forceFile))
      problems.addAll(readLatency(archive, session, options).problems);
  }
  const read = new Set(sessions.map((session) => session.folder));
  for (const { folder, files } of sessionFolders(archive)) {
    if (!read.has(folder)) checkTablesAlone(archive, folder, files, problems);
  }
  return { archive, problems: problems.list() };
}

/** Every session folder of the archive, readable or not. */
function sessionFolders(archive: Archive): readonly { readonly folder: string; readonly files: readonly string[] }[] {
  if (archive.files.size === 0) return [];
  const tree = readArchiveTree(archive.root, new ProblemCollector());
  return tree.units.flatMap((unit) =>
    unit.sessions.map((session) => ({ folder: `units/${unit.id}/${session.id}`, files: session.files })),
  );
}

function checkTablesAlone(
  archive: Archive,
  folder: string,
  files: readonly string[],
  problems: ProblemCollector,
): void {
  const session = { folder, files, file: `${folder}/session.yaml` };
  for (const [name, schema] of Object.entries(sessionTables)) {
    if (files.includes(name)) readSessionTable(archive, session, name, schema, problems);
  }
}
