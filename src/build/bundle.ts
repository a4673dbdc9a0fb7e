import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { deserialize, serialize } from "node:v8";
import type { Packed } from "../metrology/pack.js";
import { pack, unpack } from "../metrology/pack.js";
import type { Archive } from "../records/archive.js";
import type { Reductions, SessionReduction } from "../templates/subject/reductions.js";

/** What every dossier of a run reads: the archive's descriptions and its reduced sessions. */
export interface Bundle {
  readonly archive: Archive;
  readonly reductions: Reductions;
}

/** A bundle on disk, where sealed processes can read it, also one that takes over from a stopped one. */
export interface BundleFile {
  readonly path: string;
  /** Folder that a sealed process must be allowed to read. */
  readonly folder: string;
  remove(): void;
}

interface Stored {
  readonly archive: Archive;
  readonly reductions: Packed;
}

/** Writes a bundle to a temporary folder of its own, which goes with `remove` or with the process. */
export function writeBundle({ archive, reductions }: Bundle): BundleFile {
  const folder = mkdtempSync(join(tmpdir(), "benchfolio-bundle-"));
  const path = join(folder, "bundle");
  const stored: Stored = { archive, reductions: pack(Object.fromEntries(reductions)) };
  writeFileSync(path, serialize(stored));
  const remove = (): void => rmSync(folder, { recursive: true, force: true });
  process.once("exit", remove);
  return {
    path,
    folder,
    remove: () => {
      process.removeListener("exit", remove);
      remove();
    },
  };
}

/** Reads what `writeBundle` wrote. */
export function readBundle(path: string): Bundle {
  const { archive, reductions } = deserialize(readFileSync(path)) as Stored;
  return { archive, reductions: new Map(Object.entries(unpack(reductions) as Record<string, SessionReduction>)) };
}
