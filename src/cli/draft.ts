import { availableParallelism } from "node:os";
import { join } from "node:path";
import { readFileSync } from "node:fs";
import type { Attention } from "../build/attention.js";
import type { DraftResult } from "../build/draft.js";
import { UnknownName, draft } from "../build/draft.js";
import { UnwritableFolder } from "../build/make-folder.js";
import { isFolder, nearestName } from "../records/index.js";
import { renderTemplateProblem } from "../templates/render-template-problem.js";
import type { TemplateProblem } from "../templates/outcome.js";
import { UsageError, exitCodes } from "./exit.js";
import { printProblems } from "./print-problems.js";
import type { Terminal } from "./terminal.js";
import { openTerminal } from "./terminal.js";

export interface DraftArguments {
  readonly data: string;
  readonly out: string;
  readonly template: readonly string[];
  readonly unit: readonly string[];
  readonly workers?: number;
  readonly fresh: boolean;
  readonly json: boolean;
}

/** Attention of one kind that is printed; the rest is counted. */
const attentionShown = 6;

const attentionHeadings: Readonly<Record<Attention["kind"], string>> = {
  record: "In the records",
  curve: "In the curves",
  latency: "In the latencies",
  criterion: "Criteria",
  retest: "Units and methods",
};

/** Runs `benchfolio draft` and returns its exit code. */
export async function runDraft(options: DraftArguments): Promise<number> {
  const terminal = openTerminal(options);
  const started = process.hrtime.bigint();
  const result = await drafted(options, terminal);
  const seconds = Number(process.hrtime.bigint() - started) / 1e9;
  const refused = result.archiveProblems.some(({ severity }) => severity === "error");
  const failed = result.templateProblems.some(({ severity }) => severity === "error");
  if (options.json) {
    terminal.json({ out: options.out, seconds: Number(seconds.toFixed(2)), ...result });
  } else if (refused) {
    printProblems(terminal, options.data, result.archiveProblems);
    terminal.note("\nNothing was written: the archive has errors.");
  } else {
    printResult(terminal, options, result, seconds);
  }
  return refused || failed ? exitCodes.problems : exitCodes.done;
}

async function drafted(options: DraftArguments, terminal: Terminal): Promise<DraftResult> {
  if (!isFolder(options.data)) {
    throw new UsageError(`there is no folder ${options.data}`, "name the folder that holds lab.yaml with --data DIR");
  }
  try {
    return await draft({
      data: options.data,
      out: options.out,
      templates: options.template,
      units: options.unit,
      workers: options.workers ?? availableParallelism(),
      fresh: options.fresh,
      onStage: (stage, total) => terminal.progress(stage, total),
    });
  } catch (error) {
    if (error instanceof UnwritableFolder) throw new UsageError(error.message, "name another folder with --out DIR");
    if (!(error instanceof UnknownName)) throw error;
    const near = nearestName(error.wanted, error.known);
    throw new UsageError(
      error.message,
      near !== undefined
        ? `did you mean "${near}"?`
        : error.known.length === 0
          ? "check the path; without --template the templates that ship are drafted"
          : `known: ${error.known.join(", ")}`,
    );
  }
}

function printResult(terminal: Terminal, options: DraftArguments, result: DraftResult, seconds: number): void {
  const { colours } = terminal;
  printAttention(terminal, result.attention);
  for (const problem of result.templateProblems) terminal.line(`${renderInPlace(problem)}\n`);
  const { reduced, reused } = result.sessions;
  const bytes = result.pages.reduce((total, page) => total + page.bytes, 0);
  terminal.line(
    `${colours.bold(count(result.pages.length, "page"))} (${(bytes / 1e6).toFixed(1)} MB) in ${options.out}/ ` +
      `from ${count(result.units, "unit")}, ${count(reduced, "session")} reduced, ${reused} kept from before, in ${seconds.toFixed(1)} s`,
  );
  const errors = result.templateProblems.filter(({ severity }) => severity === "error").length;
  if (errors > 0)
    terminal.line(colours.red(`${count(errors, "problem")} in the templates: shown in their places on the pages`));
  const first = result.pages.find(({ page }) => page === "catalogue.html") ?? result.pages[0];
  if (first !== undefined) terminal.line(`Open ${colours.cyan(join(options.out, first.page))}`);
}

function printAttention(terminal: Terminal, attention: readonly Attention[]): void {
  if (attention.length === 0) return;
  const { colours } = terminal;
  terminal.line(colours.bold("Needs attention"));
  for (const kind of Object.keys(attentionHeadings) as Attention["kind"][]) {
    const items = attention.filter((each) => each.kind === kind);
    if (items.length === 0) continue;
    terminal.line(`  ${attentionHeadings[kind]}`);
    for (const { where, text } of items.slice(0, attentionShown)) {
      terminal.line(`    ${colours.yellow(where)}  ${text}`);
    }
    if (items.length > attentionShown) {
      terminal.line(colours.dim(`    and ${items.length - attentionShown} more; --json lists all`));
    }
  }
  terminal.line("");
}

function renderInPlace(problem: TemplateProblem): string {
  let source = "";
  try {
    source = readFileSync(problem.file, "utf8");
  } catch {
    // A template of the package is named by its short path; its problem is shown without the frame.
  }
  return renderTemplateProblem(problem, source);
}

function count(n: number, noun: string): string {
  return `${n} ${noun}${n === 1 ? "" : "s"}`;
}
