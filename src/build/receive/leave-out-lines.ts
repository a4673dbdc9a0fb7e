import { lineCount } from "../../records/source-text.js";
import type { LinesLeftOut } from "./columns.js";
import type { ReceiptProblems } from "./problem.js";
import type { SourceTable } from "./source-table.js";

/** Why each row of a file is left out by hand; undefined for the others. */
export type LeftOutReasons = (row: number) => string | undefined;

/** The stretches that the columns file leaves out of one file. Reports those that lie beyond its end. */
export function reasonsByHand(
  table: SourceTable,
  leaveOut: readonly LinesLeftOut[],
  problems: ReceiptProblems,
): LeftOutReasons {
  const own = leaveOut.filter(({ file }) => file === null || isPathEnd(table.name, file));
  const lines = lineCount(table.source);
  for (const { toLine, place } of own.filter((each) => each.toLine > lines)) {
    problems.add("E_LEAVE_OUT", place, {
      found: `line ${toLine} is to be left out, but ${table.name} has ${lines} lines`,
    });
  }
  if (own.length === 0) return () => undefined;
  return (row) => {
    const [first, last] = [table.firstLine(row), table.lastLine(row)];
    return own.find(({ fromLine, toLine }) => first <= toLine && last >= fromLine)?.reason;
  };
}

/** Reports stretches of files that are not received, and such without a file where several are. */
export function checkLeaveOutFiles(
  files: readonly string[],
  leaveOut: readonly LinesLeftOut[],
  problems: ReceiptProblems,
): void {
  for (const { file, place } of leaveOut) {
    if (file === null && files.length > 1) {
      problems.add("E_LEAVE_OUT", place, {
        found: `lines are to be left out, but not of which of the ${files.length} files`,
      });
    } else if (file !== null && !files.some((each) => isPathEnd(each, file))) {
      problems.add("E_LEAVE_OUT", place, {
        found: `lines of ${file} are to be left out, which is not among the files`,
      });
    }
  }
}

/** Whether a path ends with another one, whole names only. */
function isPathEnd(path: string, end: string): boolean {
  const plain = path.replaceAll("\\", "/");
  return plain === end || plain.endsWith(`/${end}`);
}
