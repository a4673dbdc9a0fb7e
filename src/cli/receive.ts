import { renderPrintedProblem } from "../records/render-problem.js";
import { lineRange } from "../build/receive/left-out.js";
import type { FileReceipt } from "../build/receive/make-receipt.js";
import type { ReceiveResult } from "../build/receive/receive.js";
import { receive } from "../build/receive/receive.js";
import { guessFiles } from "../build/receive/guess/guess-files.js";
import { toBeWritten } from "../build/receive/session-skeleton.js";
import { delimiterName } from "../build/receive/find-delimiter.js";
import { ReceiptRefused } from "../build/receive/write-receipt.js";
import { UsageError, exitCodes } from "./exit.js";
import { tally } from "./print-problems.js";
import type { Terminal } from "./terminal.js";
import { openTerminal } from "./terminal.js";

export interface ReceiveArguments {
  readonly columns?: string;
  readonly unit?: string;
  readonly session?: string;
  readonly data: string;
  readonly guess: boolean;
  readonly dryRun: boolean;
  readonly json: boolean;
}

/** Stretches left out of one file that are printed; the note of receipt lists all. */
const stretchesShown = 12;

/** Runs `benchfolio receive` and returns its exit code. */
export async function runReceive(files: readonly string[], options: ReceiveArguments, tool: string): Promise<number> {
  const terminal = openTerminal(options);
  if (options.guess) return printGuess(terminal, files, options);
  const { unit, session, columns } = options;
  if (columns === undefined || unit === undefined || session === undefined) {
    const missing = [
      ["--columns FILE.yaml", columns],
      ["--unit ID", unit],
      ["--session ID", session],
    ] as const;
    throw new UsageError(
      `receive needs ${missing.flatMap(([name, value]) => (value === undefined ? [name] : [])).join(", ")}`,
      columns === undefined
        ? "`benchfolio receive --guess FILE…` proposes a columns file"
        : "see benchfolio receive --help",
    );
  }
  const result = await refusing(() =>
    receive({ files, columns, unit, session, data: options.data, isTrial: options.dryRun, tool }),
  );
  if (options.json) {
    terminal.json(resultJson(result, options));
  } else {
    printReceiptProblems(terminal, result);
    if (result.receipt === undefined) terminal.note("\nNothing was written.");
    else printReceipt(terminal, result, { unit, session, ...options });
  }
  return result.receipt === undefined ? exitCodes.problems : exitCodes.done;
}

/** Prints a proposed columns file on standard output, and what a person must look at on standard error. */
function printGuess(terminal: Terminal, files: readonly string[], options: ReceiveArguments): number {
  const { guess, problems, texts } = guessFiles(files);
  if (options.json) {
    terminal.json({ ...(guess && { columns: guess.text, decisions: guess.decisions }), problems });
  } else if (guess === undefined) {
    printReceiptProblems(terminal, { problems, texts });
  } else {
    process.stdout.write(guess.text);
    const unsure = guess.decisions.filter(({ sureness }) => sureness === "unsure").map(({ part }) => part);
    const likely = guess.decisions.filter(({ sureness }) => sureness === "likely").map(({ part }) => part);
    const list = (parts: readonly string[]): string => (parts.length === 0 ? "nothing" : parts.join(", "));
    terminal.note(`unsure: ${list(unsure)}\nlikely: ${list(likely)}`);
  }
  return guess === undefined ? exitCodes.problems : exitCodes.done;
}

async function refusing<T>(run: () => Promise<T>): Promise<T> {
  try {
    return await run();
  } catch (error) {
    if (error instanceof ReceiptRefused) throw new UsageError(error.message, error.hint);
    throw error;
  }
}

function printReceiptProblems(
  terminal: Terminal,
  { problems, texts }: Pick<ReceiveResult, "problems" | "texts">,
): void {
  if (problems.length === 0) return;
  const lines = new Map(texts.map(({ file, text }) => [file, text.split("\n")]));
  for (const problem of problems) terminal.line(`${renderPrintedProblem(problem, lines.get(problem.file))}\n`);
  terminal.line(tally(problems));
}

function printReceipt(
  terminal: Terminal,
  { receipt, files, hasNewDescription }: ReceiveResult,
  options: { readonly unit: string; readonly session: string; readonly data: string; readonly dryRun: boolean },
): void {
  const { colours } = terminal;
  const { table, rows, files: sources } = receipt!;
  const folder = `units/${options.unit}/${options.session}`;
  for (const file of sources) printFile(terminal, file);
  const taken = `${count(rows, "row")} of ${count(sources.length, "file")}`;
  if (options.dryRun) {
    terminal.line(`\nTrial: ${taken} would become ${folder}/${table}; nothing was written.`);
    return;
  }
  terminal.line(`\n${colours.bold(taken)} are now ${colours.cyan(`${options.data}/${folder}/${table}`)}`);
  terminal.line(`  with ${count(files.length - 1 - (hasNewDescription ? 1 : 0), "file")} in ${folder}/received/: the files as they came, the columns file, and received.yaml`); // prettier-ignore
  if (!hasNewDescription) return;
  terminal.line(`  and a new ${folder}/session.yaml: write ${toBeWritten.join(", ")} into it,`);
  terminal.line(`  and see whether the rest is right; then benchfolio check ${options.data}`);
}

function printFile(terminal: Terminal, file: FileReceipt): void {
  const { colours } = terminal;
  terminal.line(
    `${colours.bold(file.name)}  ${count(file.lines, "line")}, delimiter ${delimiterName(file.delimiter)}: ${count(file.rowsTaken, "row")} taken`,
  );
  for (const text of strokesOf(file)) terminal.line(`  ${text}`);
  for (const { firstLine, lastLine, reason } of file.leftOut.slice(0, stretchesShown)) {
    terminal.line(colours.dim(`  left out: ${lineRange(firstLine, lastLine)}, ${reason}`));
  }
  const more = file.leftOut.length - stretchesShown;
  if (more > 0) terminal.line(colours.dim(`  left out: ${more} more stretches, listed in received/received.yaml`));
}

/** One line a key: its cycles, and which of them lack a stroke. */
function strokesOf({ taken }: FileReceipt): readonly string[] {
  interface OfKey {
    readonly press: Set<number>;
    readonly release: Set<number>;
    readonly firstLine: number;
    lastLine: number;
  }
  const keys = new Map<string, OfKey>();
  for (const { stroke, firstLine, lastLine } of taken) {
    if (stroke === undefined) continue;
    const of = keys.get(stroke.key) ?? { press: new Set(), release: new Set(), firstLine, lastLine };
    keys.set(stroke.key, of);
    of[stroke.stroke].add(stroke.cycle);
    of.lastLine = lastLine;
  }
  return [...keys].map(([key, { press, release, firstLine, lastLine }]) => {
    const cycles = [...new Set([...press, ...release])];
    const lacking = (
      [
        ["press", press],
        ["release", release],
      ] as const
    ).flatMap(([name, those]) => {
      const without = cycles.filter((cycle) => !those.has(cycle));
      return without.length === 0 ? [] : [`no ${name} in ${cycleNumbers(without)}`];
    });
    const found = `${count(press.size, "press", "presses")}, ${count(release.size, "release")}`;
    return `${key}: ${cycleNumbers(cycles)}: ${[found, ...lacking].join(", ")}; ${lineRange(firstLine, lastLine)}`;
  });
}

/** "cycle 2", "cycles 1, 2", "cycles 1 to 9". */
function cycleNumbers(cycles: readonly number[]): string {
  const sorted = [...cycles].sort((a, b) => a - b);
  const [first, last] = [sorted[0]!, sorted.at(-1)!];
  if (sorted.length > 3 && last - first === sorted.length - 1) return `cycles ${first} to ${last}`;
  return `cycle${sorted.length === 1 ? "" : "s"} ${sorted.join(", ")}`;
}

function resultJson(result: ReceiveResult, options: ReceiveArguments): unknown {
  const { receipt } = result;
  return {
    archive: options.data,
    received: receipt !== undefined && !options.dryRun,
    ...(receipt && { table: receipt.table, rows: receipt.rows, sources: receipt.files, files: result.files }),
    problems: result.problems,
  };
}

function count(n: number, noun: string, nouns = `${noun}s`): string {
  return `${n} ${n === 1 ? noun : nouns}`;
}
