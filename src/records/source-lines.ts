import { ProblemCollector } from "./problem-collector.js";
import { readSource, sizeLimits } from "./read-source.js";

/**
 * The lines of a file of the archive without their line ends, for showing problems in their place. Undefined where the
 * file cannot be shown as text.
 *
 * @param root path of the archive's folder
 * @param file path relative to it
 */
export function readSourceLines(root: string, file: string): readonly string[] | undefined {
  return readSource(root, file, sizeLimits.csvBytes, new ProblemCollector())?.text.split("\n");
}
