import type { ArchiveFile } from "./archive.js";
import type { ReadingContext } from "./read-description.js";
import { readDescription } from "./read-description.js";
import { receivedSchema } from "./schemas/received.js";
import { startOf } from "./source-text.js";
import type { YamlView } from "./yaml-view.js";

/** Folder in a session's that keeps the files as they came. */
export const receivedFolder = "received";

/** The note of receipt in that folder. */
export const receiptFile = "received.yaml";

/** How much longer than a description a note may be: it lists every file and every stroke of a record. */
const stretch = 16;

/** What stands in a session's folder, and every file of the archive with its sha256. */
export interface KeptFiles {
  /** `units/u07/s3`. */
  readonly folder: string;
  /** Names of the files in `received/`. */
  readonly received: readonly string[];
  /** Paths of all files that are there, also of those that could not be hashed. */
  readonly there: ReadonlySet<string>;
  readonly hashes: ReadonlyMap<string, ArchiveFile>;
}

/**
 * Holds the files that a session keeps in `received/`, and the table made of them, against the note of their receipt: a
 * record is never changed after it. A file that the note names must be there with its bytes and sha256; one that the note
 * does not name, and files without a note, are warned of.
 */
export function checkReceipt(context: ReadingContext, kept: KeptFiles): void {
  const { folder, received } = kept;
  if (received.length === 0) return;
  const inside = `${folder}/${receivedFolder}`;
  if (!received.includes(receiptFile)) {
    context.problems.add("W_RECEIPT_ABSENT", startOf(`${inside}/${received[0]!}`), { found: received[0]! });
    return;
  }
  const limits = { ...context.limits, yamlBytes: stretch * context.limits.yamlBytes };
  const view = readDescription({ ...context, limits }, `${inside}/${receiptFile}`, receivedSchema);
  if (view === undefined) return;
  const columns = view.child("columns");
  const noted = [...(columns === undefined ? [] : [columns]), ...view.children("files")];
  for (const entry of noted) checkEntry(context, entry, `${inside}/${entry.text("file")}`, kept);
  const table = view.child("table")!;
  checkEntry(context, table, `${folder}/${table.text("file")}`, kept);
  const names = new Set([receiptFile, ...noted.map((entry) => entry.text("file"))]);
  for (const name of received.filter((each) => !names.has(each))) {
    context.problems.add("W_RECEIVED_UNLISTED", startOf(`${inside}/${name}`), { found: name });
  }
}

function checkEntry({ problems }: ReadingContext, entry: YamlView, path: string, kept: KeptFiles): void {
  const name = entry.text("file");
  if (!kept.there.has(path)) {
    problems.add("E_RECEIVED_MISSING", entry.placeOf("file"), { found: name, expected: path });
    return;
  }
  const file = kept.hashes.get(path);
  if (file === undefined) return; // that it cannot be read is a problem of its own
  const [sha256, bytes] = [entry.text("sha256"), entry.number("bytes")];
  if (file.sha256 === sha256 && file.bytes === bytes) return;
  problems.add("E_RECEIVED_CHANGED", entry.placeOf(file.sha256 === sha256 ? "bytes" : "sha256"), {
    found: `${path} holds ${file.bytes} bytes with the sha256 ${brief(file.sha256)}`,
    expected: `${bytes} bytes with ${brief(sha256)}`,
  });
}

/** Enough of a sha256 to tell two apart. */
function brief(sha256: string): string {
  return `${sha256.slice(0, 12)}…`;
}
