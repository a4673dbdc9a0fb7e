import type { CompiledTemplate } from "../../src/templates/compiled.js";
import type { Cell, TemplateProblem } from "../../src/templates/outcome.js";
import type { ParsedTemplate } from "../../src/templates/parse/parse-template.js";
import { renderTemplateProblem } from "../../src/templates/render-template-problem.js";
import type { SealedChild, SealedChildOptions } from "../../src/templates/sealed/open-sealed-child.js";
import { openSealedChild } from "../../src/templates/sealed/open-sealed-child.js";
import { standInFolder } from "./support.js";

/** What the stand-in child tells of one slot. */
export interface PlainOutcome {
  readonly status: "done" | "failed" | "not_run";
  readonly problem: TemplateProblem | null;
  readonly shown: string | null;
  readonly value?: string | number;
  readonly workCells?: readonly number[];
}

export interface PlainRun {
  readonly cells: readonly PlainOutcome[];
  readonly inlines: readonly PlainOutcome[];
  readonly tokens: readonly string[];
}

export function openStandInChild(options: SealedChildOptions = {}): SealedChild {
  return openSealedChild(`${standInFolder}/sealed-entry.mjs`, { readable: [standInFolder], ...options });
}

export async function runIn(child: SealedChild, compiled: CompiledTemplate): Promise<PlainRun> {
  return (await child.ask({ compiled })) as PlainRun;
}

/** One line an outcome, its problem below. */
export function printRun(run: PlainRun, parsed: ParsedTemplate): string {
  const print = (name: string, { status, problem, shown, value }: PlainOutcome): string => {
    const result = [shown, value].filter((part) => part !== null && part !== undefined).join(" ");
    const head = `${name}: ${status}${result === "" ? "" : ` ${result}`}`;
    return problem === null ? head : `${head}\n${renderTemplateProblem(problem, parsed.source)}`;
  };
  const cellName = ({ index, role, id }: Cell): string => `W${index + 1} ${role}${id === null ? "" : ` ${id}`}`;
  return [
    ...parsed.cells.map((cell) => print(cellName(cell), run.cells[cell.index]!)),
    ...parsed.inlines.map(({ index, line, column }) => print(`${line}:${column}`, run.inlines[index]!)),
  ].join("\n");
}
