import { closeSync, existsSync, fsyncSync, mkdirSync, openSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { systemCode } from "../../records/read-source.js";

/** Why files cannot be received here at all, with the remedy; no problem of the files themselves. */
export class ReceiptRefused extends Error {
  readonly hint: string;

  constructor(message: string, hint: string) {
    super(message);
    this.hint = hint;
  }
}

/** Files of a session that are to be written: paths below its folder, with their content. */
export interface SessionFiles {
  /** `units/<unit>` in the archive, which exists. */
  readonly unitFolder: string;
  readonly session: string;
  readonly files: readonly { readonly path: string; readonly content: string | Uint8Array }[];
}

/**
 * Writes a receipt so that either all of it stands or none: into a folder of its own beside the session's, then renamed
 * into place. Replaces nothing. Runs in one go, so that Ctrl-C waits for it; should the process be killed, the folder
 * `.receiving-<session>` is left, which the next receipt of this session names.
 *
 * @throws ReceiptRefused where another receipt of the session is under way or was cut off
 */
export function writeReceipt({ unitFolder, session, files }: SessionFiles): void {
  const aside = join(unitFolder, `.receiving-${session}`);
  makeAside(aside);
  const release = holdSignals();
  try {
    for (const { path, content } of files) writeDurably(join(aside, path), content);
    moveIntoPlace(aside, join(unitFolder, session));
  } catch (error) {
    if (error instanceof ReceiptRefused) throw error;
    throw new ReceiptRefused(
      `the record cannot be written: ${systemCode(error)}`,
      `make room, or see who may write to ${unitFolder}; nothing was written`,
    );
  } finally {
    rmSync(aside, { recursive: true, force: true });
    release();
  }

  function moveIntoPlace(from: string, folder: string): void {
    if (!existsSync(folder)) {
      renameSync(from, folder);
      return;
    }
    const tops = [...new Set(files.map(({ path }) => path.split("/")[0]!))];
    const moved: string[] = [];
    try {
      for (const top of tops) {
        if (existsSync(join(folder, top)))
          throw new ReceiptRefused(`${join(folder, top)} is there already`, "run again");
        renameSync(join(from, top), join(folder, top));
        moved.push(top);
      }
    } catch (error) {
      for (const top of moved) renameSync(join(folder, top), join(from, top));
      throw error;
    }
  }
}

function makeAside(aside: string): void {
  try {
    mkdirSync(aside);
  } catch (error) {
    if (systemCode(error) !== "EEXIST") {
      throw new ReceiptRefused(
        `the record cannot be written: ${systemCode(error)}`,
        `see who may write to ${aside}/..`,
      );
    }
    throw new ReceiptRefused(
      `another receipt of this session is under way, or was cut off: ${aside} is there`,
      "wait for it; if none is running, remove that folder: nothing in it was received",
    );
  }
}

/** Keeps Ctrl-C and a polite end from cutting a receipt in two; returns what lets them through again. */
function holdSignals(): () => void {
  const hold = (): void => undefined;
  for (const signal of ["SIGINT", "SIGTERM"] as const) process.on(signal, hold);
  return () => {
    for (const signal of ["SIGINT", "SIGTERM"] as const) process.removeListener(signal, hold);
  };
}

function writeDurably(path: string, content: string | Uint8Array): void {
  mkdirSync(join(path, ".."), { recursive: true });
  const handle = openSync(path, "wx");
  try {
    writeFileSync(handle, content);
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}
