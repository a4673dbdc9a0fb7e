import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import writeFileAtomic from "write-file-atomic";
import type { Packed } from "../metrology/pack.js";
import { makeFolder } from "./make-folder.js";

/** The store of reduced sessions: one JSON file a session, named by the hash of everything that decided it. */
export interface Store {
  read(key: string): Packed | null;
  write(key: string, reduced: Packed): void;
}

/**
 * Opens the store in a folder, which is made when something is first kept.
 * @param options.reuse false: finds nothing, so that everything is reduced anew and kept again
 */
export function openStore(folder: string, options: { readonly reuse: boolean }): Store {
  const pathOf = (key: string): string => join(folder, `${key}.json`);
  return {
    read: (key) => {
      if (!options.reuse) return null;
      let text: string;
      try {
        text = readFileSync(pathOf(key), "utf8");
      } catch {
        return null;
      }
      return parseStored(text);
    },
    write: (key, reduced) => {
      makeFolder(folder);
      writeFileAtomic.sync(pathOf(key), JSON.stringify(reduced));
    },
  };
}

/** A stored file that is damaged counts as absent: the session is reduced again. */
function parseStored(text: string): Packed | null {
  try {
    const parsed = JSON.parse(text) as Packed;
    return parsed.version === 1 ? parsed : null;
  } catch {
    return null;
  }
}

/** The key of one reduced session: tool, code and the sha256 of every file that it depends on, in order of path. */
export function storeKey(parts: {
  readonly version: string;
  readonly digest: string;
  readonly files: readonly { readonly path: string; readonly sha256: string }[];
}): string {
  const files = [...parts.files].sort((a, b) => (a.path < b.path ? -1 : 1)).map((f) => [f.path, f.sha256]);
  return createHash("sha256")
    .update(JSON.stringify([parts.version, parts.digest, files]))
    .digest("hex");
}
