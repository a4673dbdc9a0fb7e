import { accessSync, constants, mkdirSync, statSync } from "node:fs";
import { dirname, resolve } from "node:path";

/** A folder that cannot be made or written to; `at` is the place that stands in the way. */
export class UnwritableFolder extends Error {
  readonly at: string;

  constructor(message: string, at: string) {
    super(message);
    this.at = at;
  }
}

/**
 * Makes a folder and those above it where they are missing, and makes sure that it can be written to. One level at a time:
 * Node's own recursive form does not end in places such as /proc.
 * @throws UnwritableFolder for a file in its place or above it, and where the system refuses
 */
export function makeFolder(path: string): void {
  makeLevel(resolve(path));
  try {
    accessSync(path, constants.W_OK);
  } catch (error) {
    throw new UnwritableFolder(`${path} cannot be written to (${codeOf(error)})`, path);
  }
}

function makeLevel(path: string): void {
  let found;
  try {
    found = statSync(path, { throwIfNoEntry: false });
  } catch (error) {
    if (codeOf(error) !== "ENOTDIR") throw new UnwritableFolder(`${path} cannot be read (${codeOf(error)})`, path);
  }
  if (found?.isDirectory()) return;
  if (found !== undefined) throw new UnwritableFolder(`${path} is a file and not a folder`, path);
  if (dirname(path) !== path) makeLevel(dirname(path));
  try {
    mkdirSync(path);
  } catch (error) {
    if (codeOf(error) !== "EEXIST") throw new UnwritableFolder(`${path} cannot be made (${codeOf(error)})`, path);
  }
}

function codeOf(error: unknown): string {
  return (error as NodeJS.ErrnoException).code ?? String(error);
}
