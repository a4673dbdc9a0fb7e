import type { Archive, Session } from "./archive.js";
import type { ProblemCollector } from "./problem-collector.js";
import { readSource, sizeLimits } from "./read-source.js";
import { parseTable } from "./read-table.js";
import type { TableSchema } from "./schemas/table-schema.js";
import { startOf } from "./source-text.js";
import type { Table } from "./table.js";

/**
 * Reads one raw file of a session, which must still be the file the archive was read with. Undefined, with a problem,
 * where it is not there or cannot be understood.
 */
export function readSessionTable(
  archive: Pick<Archive, "root" | "files">,
  session: Pick<Session, "folder" | "files" | "file">,
  name: string,
  schema: TableSchema,
  problems: ProblemCollector,
): Table | undefined {
  const path = `${session.folder}/${name}`;
  if (!session.files.includes(name)) {
    problems.add("E_FILE_MISSING", startOf(session.file), { expected: path });
    return undefined;
  }
  const source = readSource(archive.root, path, sizeLimits.csvBytes, problems, archive.files.get(path)?.sha256);
  return source && parseTable(source, schema, problems);
}
