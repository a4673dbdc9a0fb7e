import { createHash } from "node:crypto";
import { Document } from "yaml";
import { delimiterName } from "./find-delimiter.js";
import { shortRange } from "./left-out.js";
import type { Receipt } from "./make-receipt.js";

/** The columns file as it is kept beside the files. */
export interface KeptColumns {
  readonly file: string;
  readonly bytes: Uint8Array;
}

/**
 * `received/received.yaml`: which bytes were received, which lines of them stand where in the table, and what was left out
 * and why. The same files give the same text.
 *
 * @param tool name and version of the program that received them
 */
export function renderReceived(receipt: Receipt, columns: KeptColumns, tool: string): string {
  const document = new Document({
    table: { file: receipt.table, ...digest(Buffer.from(receipt.text)), rows: receipt.rows },
    columns: { file: columns.file, ...digest(columns.bytes) },
    received_by: tool,
    files: receipt.files.map((file) => ({
      file: file.keptAs,
      ...(isRenamed(file.name, file.keptAs) && { given_as: lastNames(file.name) }),
      sha256: file.sha256,
      bytes: file.bytes,
      lines: file.lines,
      delimiter: delimiterName(file.delimiter),
      rows_taken: file.rowsTaken,
      taken: file.taken.map((taken) => ({
        ...taken.stroke,
        lines: shortRange(taken.firstLine, taken.lastLine),
        table_lines: shortRange(taken.firstTableLine, taken.lastTableLine),
      })),
      left_out: file.leftOut.map(({ firstLine, lastLine, reason }) => ({
        lines: shortRange(firstLine, lastLine),
        reason,
      })),
    })),
  });
  document.commentBefore =
    " How this record was received: the files as they came, where their lines stand in the table, what was left out.\n" +
    " Written by the program; a record and its receipt are never changed afterwards.";
  return document.toString({ lineWidth: 0, flowCollectionPadding: true });
}

function digest(bytes: Uint8Array): { readonly sha256: string; readonly bytes: number } {
  return { sha256: createHash("sha256").update(bytes).digest("hex"), bytes: bytes.length };
}

function isRenamed(path: string, keptAs: string): boolean {
  return lastNames(path).split("/").at(-1) !== keptAs;
}

/** The file's name and its folder's: enough to know it again, and nothing of whose computer it was on. */
function lastNames(path: string): string {
  return path
    .replaceAll("\\", "/")
    .split("/")
    .filter((name) => name !== "" && name !== "." && name !== "..")
    .slice(-2)
    .join("/");
}
