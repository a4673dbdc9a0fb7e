import { createHash } from "node:crypto";
import type { SourceText } from "../../records/source-text.js";
import { startOf } from "../../records/source-text.js";
import { sizeLimits } from "../../records/read-source.js";
import type { KnownNames } from "./check-taken.js";
import { checkTaken } from "./check-taken.js";
import type { ColumnsFile } from "./columns.js";
import { tables } from "./columns.js";
import { decodeFile } from "./decode-file.js";
import type { LeftOut } from "./left-out.js";
import { joinLeftOut } from "./left-out.js";
import { checkLeaveOutFiles } from "./leave-out-lines.js";
import type { ReceiptProblems } from "./problem.js";
import { renderTable } from "./render-table.js";
import { newCounters, takeFile } from "./take-file.js";
import type { TakenFile } from "./taken.js";

/** A file to be received. */
export interface ReceivedBytes {
  /** Path as the user gave it. */
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** A stretch of the source that became a stretch of the table. Lines are 1-based, both ends included. */
export interface TakenLines {
  /** "KeyF, cycle 1, press"; empty for single readings. */
  readonly name: string;
  readonly stroke?: { readonly key: string; readonly cycle: number; readonly stroke: "press" | "release" };
  readonly firstLine: number;
  readonly lastLine: number;
  readonly firstTableLine: number;
  readonly lastTableLine: number;
}

/** What became of one file. */
export interface FileReceipt {
  readonly name: string;
  /** As which it is kept in `received/`. */
  readonly keptAs: string;
  readonly bytes: number;
  readonly sha256: string;
  readonly delimiter: string;
  readonly lines: number;
  readonly rowsTaken: number;
  readonly taken: readonly TakenLines[];
  readonly leftOut: readonly LeftOut[];
}

/** A record made of files, before it is written. */
export interface Receipt {
  /** `force.csv`, `presses.csv` or `timings.csv`. */
  readonly table: string;
  readonly text: string;
  readonly rows: number;
  readonly files: readonly FileReceipt[];
}

/**
 * Makes one table of a session from files, as a columns file says. Pure: bytes in, text out. Undefined, with every problem
 * at its line in the files, where anything is wrong; the files' texts are given anyhow, for showing the problems in place.
 *
 * @param maxBytes the most that the files hold together, and the table; default what an archive's table can hold
 */
export function makeReceipt(
  given: readonly ReceivedBytes[],
  columns: ColumnsFile,
  known: KnownNames,
  problems: ReceiptProblems,
  maxBytes = sizeLimits.csvBytes,
): { readonly receipt: Receipt | undefined; readonly texts: readonly SourceText[] } {
  const sha256s = given.map(({ bytes }) => createHash("sha256").update(bytes).digest("hex"));
  if (!checkFiles(given, sha256s, maxBytes, problems)) return { receipt: undefined, texts: [] };
  checkLeaveOutFiles(
    given.map(({ name }) => name),
    columns.leaveOut,
    problems,
  );
  const sources = given.map(({ name, bytes }) => decodeFile(name, bytes, columns.layout.encoding, problems));
  const texts = sources.filter((source) => source !== undefined);
  const counters = newCounters();
  const taken = texts.flatMap((source) => takeFile(source, columns, counters, problems) ?? []);
  if (problems.hasErrors) return { receipt: undefined, texts };
  const text = renderTable(
    columns,
    taken.flatMap(({ rows }) => rows),
  );
  const { file: table } = tables[columns.kind];
  checkTaken(text, columns, taken, known, problems);
  if (Buffer.byteLength(text) > maxBytes) {
    problems.add("E_FILES_HUGE", startOf(given[0]!.name), {
      found: `${table} would hold ${Buffer.byteLength(text)} bytes`,
      expected: `${maxBytes} bytes`,
    });
  }
  if (problems.hasErrors) return { receipt: undefined, texts };
  const names = keptNames(given.map(({ name }) => name));
  let tableLine = 2;
  const files = taken.map((file, i): FileReceipt => {
    const receipt = fileReceipt(file, tableLine);
    tableLine += file.rows.length;
    return { ...receipt, keptAs: names[i]!, bytes: given[i]!.bytes.length, sha256: sha256s[i]! };
  });
  return { receipt: { table, text, rows: tableLine - 2, files }, texts };
}

/** Reports files of the same bytes; false where all together are too many bytes to be read. */
function checkFiles(
  given: readonly ReceivedBytes[],
  sha256s: readonly string[],
  maxBytes: number,
  problems: ReceiptProblems,
): boolean {
  given.forEach(({ name }, i) => {
    const first = sha256s.indexOf(sha256s[i]!);
    if (first < i) problems.add("E_FILE_TWICE", startOf(name), { found: given[first]!.name });
  });
  const total = given.reduce((sum, { bytes }) => sum + bytes.length, 0);
  if (given.length > 1 && total > maxBytes) {
    const facts = { found: `the files hold ${total} bytes together`, expected: `${maxBytes} bytes` };
    problems.add("E_FILES_HUGE", startOf(given[0]!.name), facts);
    return false;
  }
  return true;
}

/** Names in `received/` that are its own; the files' names are made different from them and from each other. */
const ownNames = ["received.yaml", "columns.yaml"];

function keptNames(paths: readonly string[]): readonly string[] {
  const taken = new Set(ownNames);
  return paths.map((path, i) => {
    const name = path.replaceAll("\\", "/").replace(/^.*\//u, "");
    const plain = taken.has(name.toLowerCase()) || name.startsWith(".") ? `${i + 1}-${name}` : name;
    taken.add(plain.toLowerCase());
    return plain;
  });
}

function fileReceipt(
  { table, runs, rows, leftOut }: TakenFile,
  firstTableLine: number,
): Omit<FileReceipt, "keptAs" | "bytes" | "sha256"> {
  let tableLine = firstTableLine;
  const taken = runs.map(({ name, stroke, from, to }): TakenLines => {
    const lines = {
      name,
      ...(stroke && { stroke }),
      firstLine: table.firstLine(from),
      lastLine: table.lastLine(to - 1),
      firstTableLine: tableLine,
      lastTableLine: tableLine + to - from - 1,
    };
    tableLine += to - from;
    return lines;
  });
  const lines = table.source.text.replace(/\n$/u, "").split("\n").length;
  return {
    name: table.name,
    delimiter: table.delimiter,
    lines,
    rowsTaken: rows.length,
    taken,
    leftOut: joinLeftOut(leftOut),
  };
}
