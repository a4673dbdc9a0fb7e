import { closeSync, fstatSync, openSync, readFileSync, statSync } from "node:fs";
import { sizeLimits, systemReason } from "../../records/read-source.js";
import { startOf } from "../../records/source-text.js";
import type { ReceivedBytes } from "./make-receipt.js";
import type { ReceiptProblems } from "./problem.js";

/** Reads the bytes of the files to be received; those that cannot be read are problems and left out. */
export function readGivenFiles(files: readonly string[], problems: ReceiptProblems): readonly ReceivedBytes[] {
  return files.flatMap((name) => readGivenFile(name, problems) ?? []);
}

function readGivenFile(name: string, problems: ReceiptProblems): ReceivedBytes | undefined {
  try {
    // Looked at before it is opened: opening a pipe waits for its other end.
    const named = statSync(name);
    if (!named.isFile()) {
      const found = named.isDirectory() ? "a folder" : "a device or pipe";
      problems.add("E_NO_FILE", startOf(name), { found });
      return undefined;
    }
    const handle = openSync(name, "r");
    try {
      const status = fstatSync(handle);
      if (status.size > sizeLimits.csvBytes) {
        const facts = { found: `${status.size} bytes`, expected: `${sizeLimits.csvBytes} bytes` };
        problems.addRecords("E_FILE_HUGE", startOf(name), facts);
        return undefined;
      }
      return { name, bytes: readFileSync(handle) };
    } finally {
      closeSync(handle);
    }
  } catch (error) {
    problems.addRecords("E_FILE_UNREADABLE", startOf(name), { found: systemReason(error) });
    return undefined;
  }
}
