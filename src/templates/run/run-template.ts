import type { CompiledSlot, CompiledTemplate, FreeName } from "../compiled.js";
import { programText } from "../compiled.js";
import type {
  Cell,
  CellOutcome,
  Inline,
  InlineOutcome,
  Printable,
  Reference,
  Role,
  TemplateProblem,
  TemplateRun,
} from "../outcome.js";
import { roleOnFence } from "../parse/cell-head.js";
import type { ParsedTemplate } from "../parse/parse-template.js";
import { parseTemplate } from "../parse/parse-template.js";
import type { Wording } from "../problem.js";
import { problemAt } from "../problem.js";
import type { Stop } from "../sealed/protocol.js";
import type { ModuleExports } from "../template-modules.js";
import type { Place } from "../text-lines.js";
import { wrongResult } from "../shared-wording.js";
import { checkCellResult, checkPrintable } from "./check-result.js";
import { describeRunError } from "./run-errors.js";
import type { SealedPlace, SealedProcess } from "./seal-process.js";
import * as wording from "./wording.js";

/** What a run is given. All of it is frozen, so that no cell can change what another sees. */
export interface RunScope {
  /** Values of the subject's names, such as `unit`. */
  readonly values: Readonly<Record<string, unknown>>;
  /** Exports of every module that the template names, by specifier. */
  readonly modules: Readonly<Record<string, ModuleExports>>;
}

export interface RunOptions {
  /** Runs one slot; whoever watches the process is told of it here. By default nobody is. */
  readonly step?: <T>(id: string, run: () => T) => T;
  /** Slots that are not to be run, by `stepId`, since they were stopped before. */
  readonly stopped?: ReadonlyMap<string, Stop>;
}

/** Name of a slot's step: `cell:3` or `inline:0`. */
export function stepId(kind: "cell" | "inline", index: number): string {
  return `${kind}:${index}`;
}

/**
 * Runs a compiled template: work cells in order, then the other cells and the inline values in page order, each caught
 * alone. A slot with a problem of its own, or that needs the names of a work cell that failed, does not run.
 *
 * @throws RangeError where the scope lacks a name or a module that the template uses: the caller's fault
 */
export function runTemplate(
  compiled: CompiledTemplate,
  scope: RunScope,
  process: SealedProcess,
  options: RunOptions = {},
): TemplateRun {
  const parsed = parseTemplate(compiled.source, compiled.file);
  const run = new Run(compiled, parsed, scope, process, options);
  const { cells, inlines } = run.all();
  const { file, source, tokens, frontMatter } = parsed;
  return { file, source, frontMatter: { ...frontMatter }, tokens, cells, inlines };
}

/** How the template is named in the frames of errors; no file has such a name. */
const address = "benchfolio-template:";

const strangeMark = wrongResult("figure", "a chart with a mark that no function of the drawing library has made");

type SlotOutcome =
  | { readonly status: "done"; readonly result: unknown }
  | { readonly status: "failed" | "not_run"; readonly problem: TemplateProblem };

class Run {
  readonly #compiled: CompiledTemplate;
  readonly #parsed: ParsedTemplate;
  readonly #scope: RunScope;
  readonly #modules: Readonly<Record<string, ModuleExports>>;
  readonly #process: SealedProcess;
  readonly #options: RunOptions;
  readonly #place: SealedPlace;
  readonly #ids: readonly string[];
  /** Names of work cells that have run. */
  readonly #names = new Map<string, unknown>();
  readonly #outcomes = new Map<CompiledSlot, SlotOutcome>();

  constructor(
    compiled: CompiledTemplate,
    parsed: ParsedTemplate,
    scope: RunScope,
    process: SealedProcess,
    options: RunOptions,
  ) {
    this.#compiled = compiled;
    this.#parsed = parsed;
    this.#scope = scope;
    this.#process = process;
    this.#options = options;
    this.#place = process.open();
    this.#ids = parsed.cells.flatMap(({ role, id }) => (role === "work" || id === null ? [] : [id]));
    for (const name of compiled.scopeNames) {
      if (!(name in scope.values)) throw new RangeError(`the scope of the run has no "${name}"`);
    }
    for (const module of compiled.modules) {
      if (!(module in scope.modules)) throw new RangeError(`the scope of the run lacks the module "${module}"`);
    }
    process.freeze(scope.values);
    process.freeze(scope.modules);
    this.#modules = Object.fromEntries(
      compiled.modules.map((name) => [name, process.freeze(process.drawing.guard(name, scope.modules[name]!))]),
    );
  }

  all(): { readonly cells: readonly CellOutcome[]; readonly inlines: readonly InlineOutcome[] } {
    const slots = [...this.#compiled.cells, ...this.#compiled.inlines];
    const isWork = (slot: CompiledSlot): boolean => this.#roleOf(slot) === "work";
    const inPageOrder = (a: CompiledSlot, b: CompiledSlot): number => a.line - b.line || a.column - b.column;
    const order = [...slots.filter(isWork), ...slots.filter((slot) => !isWork(slot)).sort(inPageOrder)];
    for (const slot of order) this.#outcomes.set(slot, this.#outcome(slot));
    return {
      cells: this.#compiled.cells.map((slot): CellOutcome => {
        const cell = this.#parsed.cells[slot.index]!;
        const outcome = this.#outcomes.get(slot)!;
        if (outcome.status !== "done") return { cell, ...outcome };
        return { cell, status: "done", result: cell.role === "work" ? null : (outcome.result as CellResult) };
      }),
      inlines: this.#compiled.inlines.map((slot): InlineOutcome => {
        const inline = this.#parsed.inlines[slot.index]!;
        const outcome = this.#outcomes.get(slot)!;
        if (outcome.status !== "done") return { inline, ...outcome };
        return { inline, status: "done", result: outcome.result as Printable, workCells: slot.workCells };
      }),
    };
  }

  #outcome(slot: CompiledSlot): SlotOutcome {
    if (slot.problem !== null) return { status: "failed", problem: slot.problem };
    const stop = this.#options.stopped?.get(stepId(slot.kind, slot.index));
    const role = this.#roleOf(slot);
    if (stop?.reason === "time") return this.#fail(slot, wording.outOfTime(role, stop.limitMs));
    if (stop?.reason === "memory") return this.#fail(slot, wording.outOfMemory(role, stop.limitMb));
    const lost = slot.names.filter(({ source, name }) => source === "work" && !this.#names.has(name));
    if (lost.length > 0) {
      const said = wording.notRun([...new Set(lost.map(({ name }) => name))], this.#failedLine(lost[0]!));
      return { status: "not_run", problem: this.#problem(slot, said) };
    }
    const step = this.#options.step ?? ((_: string, run: () => SlotOutcome) => run());
    return step(stepId(slot.kind, slot.index), () => this.#evaluate(slot, role));
  }

  #evaluate(slot: CompiledSlot, role: Role | "inline"): SlotOutcome {
    try {
      const run = this.#place.evaluate(programText(slot), address) as (...values: unknown[]) => unknown;
      const result = run(...slot.names.map((name) => this.#valueOf(name)));
      if (role === "work") {
        for (const [name, value] of Object.entries((result ?? {}) as Record<string, unknown>)) {
          this.#names.set(name, this.#process.freeze(value));
        }
      }
      // Inside the try: a result may hold code of the template, which runs when it is looked at.
      const refused = role === "inline" ? checkPrintable(result, this.#ids) : checkCellResult(role, result);
      if (refused !== null) return this.#fail(slot, refused);
      if (role !== "figure") return { status: "done", result };
      const settled = this.#process.drawing.settle(result as Record<string, unknown>);
      return settled === null ? this.#fail(slot, strangeMark) : { status: "done", result: settled };
    } catch (error) {
      return { status: "failed", problem: this.#caught(slot, error) };
    }
  }

  #valueOf({ name, source, module, export: exported }: FreeName): unknown {
    if (source === "work") return this.#names.get(name);
    if (source === "builtin") return this.#place.builtins[name];
    if (source === "scope") return this.#scope.values[name];
    if (source === "see") return (target: string): Reference => ({ kind: "reference", target });
    const exports = this.#modules[module!]!;
    return exported === "*" ? exports : exports[exported!];
  }

  /** The line at which the work cell that should have declared a name failed, or the one that it needed in turn. */
  #failedLine({ cell }: FreeName): number {
    const slot = this.#compiled.cells[cell!]!;
    const outcome = this.#outcomes.get(slot);
    const needed = slot.names.find(({ source, name }) => source === "work" && !this.#names.has(name));
    if (outcome?.status === "not_run" && needed !== undefined) return this.#failedLine(needed);
    return outcome === undefined || outcome.status === "done" ? slot.line : outcome.problem.line;
  }

  #caught(slot: CompiledSlot, error: unknown): TemplateProblem {
    const [firstLine, lastLine] = this.#linesOf(slot);
    const fault = describeRunError(error, this.#process.framesOf(error), address, firstLine, lastLine);
    const { line, column } = fault;
    if (line === null || column === null) return this.#problem(slot, fault.wording);
    const rest = this.#parsed.lines[line - 1]?.slice(column - 1) ?? "";
    const length = /^[\w$]+/.exec(rest)?.[0].length ?? 1;
    return problemAt(this.#parsed.file, { line, column }, length, fault.wording);
  }

  #fail(slot: CompiledSlot, said: Wording): SlotOutcome {
    return { status: "failed", problem: this.#problem(slot, said) };
  }

  /** A problem of a slot as a whole: at the role's word of its fence, or at the expression. */
  #problem(slot: CompiledSlot, said: Wording): TemplateProblem {
    const { place, length } = this.#whole(slot);
    return problemAt(this.#parsed.file, place, length, said);
  }

  #whole(slot: CompiledSlot): { readonly place: Place; readonly length: number } {
    if (slot.kind === "inline") {
      const { line, column, source }: Inline = this.#parsed.inlines[slot.index]!;
      return { place: { line, column }, length: source.length };
    }
    const { fenceLine, role }: Cell = this.#parsed.cells[slot.index]!;
    return roleOnFence(this.#parsed.lines[fenceLine - 1]!, role, fenceLine);
  }

  #linesOf(slot: CompiledSlot): readonly [number, number] {
    if (slot.kind === "inline") return [slot.line, slot.line];
    const { firstLine, lastLine } = this.#parsed.cells[slot.index]!;
    return [firstLine, lastLine];
  }

  #roleOf(slot: CompiledSlot): Role | "inline" {
    return slot.kind === "inline" ? "inline" : this.#parsed.cells[slot.index]!.role;
  }
}

type CellResult = Extract<CellOutcome, { status: "done" }>["result"];
