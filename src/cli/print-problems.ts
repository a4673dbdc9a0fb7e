import { problemMessage, readSourceLines, renderProblem } from "../records/index.js";
import type { Problem } from "../records/problem.js";
import type { Terminal } from "./terminal.js";

/** Prints problems with the lines around them, then how many there are. */
export function printProblems(terminal: Terminal, root: string, problems: readonly Problem[]): void {
  const lines = new Map<string, readonly string[] | undefined>();
  for (const problem of problems) {
    if (!lines.has(problem.file)) lines.set(problem.file, readSourceLines(root, problem.file));
    terminal.line(`${renderProblem(problem, lines.get(problem.file), { prefix: root })}\n`);
  }
  terminal.line(tally(problems));
}

/** "3 errors, 1 warning". */
export function tally(problems: readonly Pick<Problem, "severity">[]): string {
  const count = (severity: Problem["severity"]): string => {
    const n = problems.filter((problem) => problem.severity === severity).length;
    return `${n} ${severity}${n === 1 ? "" : "s"}`;
  };
  return `${count("error")}, ${count("warning")}`;
}

/** A problem for a machine: its data and its sentence. */
export function problemJson(problem: Problem): Problem & { readonly message: string } {
  return { ...problem, message: problemMessage(problem) };
}
