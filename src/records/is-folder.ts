import { statSync } from "node:fs";

/** Whether a folder stands at a path, whatever else may stand there or above it. */
export function isFolder(path: string): boolean {
  try {
    return statSync(path).isDirectory();
  } catch {
    return false;
  }
}
