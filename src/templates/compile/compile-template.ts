import { Script } from "node:vm";
import { join } from "node:path";
import type { CompiledSlot, CompiledTemplate, FreeName } from "../compiled.js";
import { programText } from "../compiled.js";
import type { Role, TemplateProblem } from "../outcome.js";
import { benchfolioFolder } from "../package-folder.js";
import type { ParsedTemplate } from "../parse/parse-template.js";
import { parseTemplate } from "../parse/parse-template.js";
import { unknownSubject } from "../parse/wording.js";
import type { Prelude, SubjectScope } from "../prelude.js";
import { prelude as standardPrelude } from "../prelude.js";
import { problemAt, sortProblems } from "../problem.js";
import type { TemplateModules } from "../template-modules.js";
import { templateModules } from "../template-modules.js";
import type { Assembly, Slot } from "./assemble.js";
import { assembleModule } from "./assemble.js";
import type { SyntaxReading } from "./check-syntax.js";
import { checkSyntax } from "./check-syntax.js";
import { eraseTypes } from "./erase-types.js";
import { findMisuse } from "./find-misuse.js";
import type { SlotNames } from "./name-uses.js";
import { findNames } from "./name-uses.js";
import { internalTypes, preludeText, referenceIds } from "./prelude-text.js";
import { reword } from "./reword.js";
import type { TypeLibrary } from "./type-library.js";
import { openTypeLibrary } from "./type-library.js";
import { notErasable, syntax } from "./syntax-wording.js";
import { usedBefore } from "./type-wording.js";

export interface Compilation {
  readonly parsed: ParsedTemplate;
  /** Everything wrong with the template, in the order of its lines; empty: it can be run as it stands. */
  readonly problems: readonly TemplateProblem[];
  /** Null where the subject is not known. Slots with a problem of their own will not run; the others can. */
  readonly compiled: CompiledTemplate | null;
}

export interface TemplateCompiler {
  compile(text: string, file: string): Compilation;
}

export interface TemplateCompilerOptions {
  /** Modules that cells may import, over the standard ones of the same specifier. */
  readonly modules?: TemplateModules;
  readonly prelude?: Prelude;
}

/**
 * Opens a compiler of templates. Declarations are read on the first template and kept for the later ones, so one compiler
 * should serve a whole run.
 */
export function openTemplateCompiler(options: TemplateCompilerOptions = {}): TemplateCompiler {
  const root = benchfolioFolder(import.meta.url);
  const modules = { ...templateModules(root), ...options.modules };
  const prelude = options.prelude ?? standardPrelude;
  const internal = Object.fromEntries(
    Object.values(internalTypes).map((specifier) => [
      specifier,
      join(root, "dist", `${specifier.replace("benchfolio:", "")}.d.ts`),
    ]),
  );
  const library = openTypeLibrary(modules, internal);
  return { compile: (text, file) => compileTemplate(parseTemplate(text, file), modules, prelude, library) };
}

function compileTemplate(
  parsed: ParsedTemplate,
  modules: TemplateModules,
  prelude: Prelude,
  library: TypeLibrary,
): Compilation {
  const { frontMatter } = parsed;
  if (frontMatter === null) return { parsed, problems: parsed.problems, compiled: null };
  const scope = prelude.subjects[frontMatter.subject];
  if (scope === undefined) {
    const line = Math.max(1, parsed.lines.findIndex((each) => /^\s*subject\s*:/.test(each)) + 1);
    const said = unknownSubject(frontMatter.subject, undefined, Object.keys(prelude.subjects));
    const place = { line, column: 1 };
    const problem = problemAt(parsed.file, place, parsed.lines[line - 1]!.length, said);
    return { parsed, problems: sortProblems([...parsed.problems, problem]), compiled: null };
  }
  const run = new CompileRun(parsed, modules, prelude, scope, library);
  const compiled = run.compile(frontMatter.subject, frontMatter.methods);
  return { parsed, problems: run.problems(), compiled };
}

class CompileRun {
  readonly #template: ParsedTemplate;
  readonly #modules: TemplateModules;
  readonly #prelude: Prelude;
  readonly #scope: SubjectScope;
  readonly #library: TypeLibrary;
  readonly #problems: TemplateProblem[];
  readonly #cellReadings: readonly SyntaxReading[];
  readonly #inlineReadings: readonly SyntaxReading[];
  readonly #assembly: Assembly;

  constructor(
    template: ParsedTemplate,
    modules: TemplateModules,
    prelude: Prelude,
    scope: SubjectScope,
    library: TypeLibrary,
  ) {
    this.#template = template;
    this.#modules = modules;
    this.#prelude = prelude;
    this.#scope = scope;
    this.#library = library;
    this.#problems = [...template.problems];
    this.#cellReadings = template.cells.map((cell) => this.#readCell(cell));
    this.#inlineReadings = template.inlines.map((inline) => this.#readInline(inline));
    this.#assembly = assembleModule(template, this.#cellReadings, this.#inlineReadings);
  }

  problems(): readonly TemplateProblem[] {
    return sortProblems(this.#problems);
  }

  compile(subject: CompiledTemplate["subject"], methods: readonly string[]): CompiledTemplate {
    const { checker, sourceFile, diagnostics } = this.#library.check(
      this.#assembly.text,
      preludeText(this.#template, this.#prelude, this.#scope),
    );
    const misuses = findMisuse(sourceFile, checker, this.#modules);
    for (const { start, end, wording: said } of misuses) this.#reportInModule(start, end - start, said);
    const context = {
      sourceFile,
      checker,
      ids: referenceIds(this.#template),
      roleAt: (offset: number) => this.#roleAt(offset),
    };
    const seen = new Set<number>();
    for (const diagnostic of diagnostics) {
      const start = diagnostic.start ?? 0;
      const covered = misuses.some((misuse) => start >= misuse.start && start < misuse.end) || seen.has(start);
      seen.add(start);
      if (!covered) this.#reportInModule(start, diagnostic.length ?? 1, reword(diagnostic, context));
    }
    const erased = eraseTypes(sourceFile, (node) => {
      this.#reportInModule(node.getStart(sourceFile), node.getWidth(sourceFile), notErasable);
    });
    const namesOf = findNames(this.#template, this.#assembly, sourceFile, checker, this.#prelude, this.#scope);
    const names = new Map(this.#assembly.slots.map((slot) => [slot, namesOf(slot)]));
    this.#refuseLaterNames(names);
    const needs = this.#workCellsOf(names);
    const slots = this.#assembly.slots.map((slot) => this.#compileSlot(slot, erased, names.get(slot)!, needs(slot)));
    const free = slots.flatMap((slot) => slot.names);
    return {
      file: this.#template.file,
      source: this.#template.source,
      subject,
      methods,
      modules: [...new Set(free.flatMap(({ module }) => (module === undefined ? [] : [module])))],
      scopeNames: [...new Set(free.filter(({ source }) => source === "scope").map(({ name }) => name))],
      cells: slots.filter(({ kind }) => kind === "cell"),
      inlines: slots.filter(({ kind }) => kind === "inline"),
    };
  }

  #readCell({ role, source, firstLine, lastLine }: ParsedTemplate["cells"][number]): SyntaxReading {
    const body = this.#template.lines.slice(firstLine - 1, lastLine).join("\n");
    const reading = checkSyntax(body, role, this.#modules);
    for (const { start, length, wording: said } of reading.problems) {
      const before = body.slice(0, start).split("\n");
      const place = { line: firstLine + before.length - 1, column: before.at(-1)!.length + 1 };
      this.#report(place, length, said);
    }
    // A fence that is never closed leaves no line for its wrapper; parsing has reported it.
    const open = lastLine >= this.#template.lines.length;
    return { ...reading, broken: reading.broken || open || source.trim() === "" };
  }

  #readInline({ line, column, source }: ParsedTemplate["inlines"][number]): SyntaxReading {
    if (source === "") return { problems: [], broken: true, names: [] };
    const reading = checkSyntax(source, "inline", this.#modules);
    for (const { start, length, wording: said } of reading.problems) {
      this.#report({ line, column: column + start }, Math.min(length, source.length), said);
    }
    return reading;
  }

  #roleAt(offset: number): Role | "inline" | null {
    const slot = this.#assembly.slotAt(offset);
    if (slot === null) return null;
    return slot.kind === "inline" ? "inline" : this.#template.cells[slot.index]!.role;
  }

  /** A work cell may use only names of work cells above it, whenever the use would run. */
  #refuseLaterNames(names: ReadonlyMap<Slot, SlotNames>): void {
    for (const [slot, { free }] of names) {
      if (slot.kind !== "cell" || this.#template.cells[slot.index]!.role !== "work") continue;
      for (const { name, cell, at } of free) {
        if (cell !== undefined && cell > slot.index) {
          this.#reportInModule(at, name.length, usedBefore(name, this.#template.cells[cell]!.firstLine));
        }
      }
    }
  }

  #workCellsOf(names: ReadonlyMap<Slot, SlotNames>): (slot: Slot) => readonly number[] {
    const direct = (slot: Slot): readonly number[] =>
      (names.get(slot)?.free ?? []).flatMap(({ cell }) => (cell === undefined ? [] : [cell]));
    const cellSlots = new Map(this.#assembly.slots.filter(({ kind }) => kind === "cell").map((s) => [s.index, s]));
    return (slot) => {
      const all = new Set<number>();
      const visit = (cell: number): void => {
        if (all.has(cell)) return;
        all.add(cell);
        direct(cellSlots.get(cell)!).forEach(visit);
      };
      direct(slot).forEach(visit);
      return [...all].sort((a, b) => a - b);
    };
  }

  #compileSlot(slot: Slot, erased: string, names: SlotNames, workCells: readonly number[]): CompiledSlot {
    const { kind, index } = slot;
    const cell = kind === "cell" ? this.#template.cells[index]! : null;
    const inline = kind === "inline" ? this.#template.inlines[index]! : null;
    const line = cell?.firstLine ?? inline!.line;
    const compiled: CompiledSlot = {
      kind,
      index,
      line,
      column: inline?.column ?? 1,
      code: erased.slice(slot.start, slot.end),
      names: names.free.map(withoutPlace),
      declares: names.declares,
      workCells,
      problem: null,
    };
    const broken = cell === null ? this.#inlineReadings[index]!.broken : this.#cellReadings[index]!.broken;
    if (!broken && this.#problemOf(slot) === null) this.#parseAsRun(compiled);
    return { ...compiled, problem: this.#problemOf(slot) };
  }

  /** What the engine itself cannot parse must not wait until the run. */
  #parseAsRun(slot: CompiledSlot): void {
    try {
      new Script(`"use strict";${programText(slot)}`, { filename: "template" });
    } catch (error) {
      if (!(error instanceof SyntaxError)) throw error;
      const line = Number(/^template:(\d+)/.exec(error.stack ?? "")?.[1] ?? slot.line);
      this.#report({ line, column: slot.kind === "inline" ? slot.column : 1 }, 1, syntax(error.message));
    }
  }

  /** The first problem that stands in a slot, or in its fence. */
  #problemOf({ kind, index }: Slot): TemplateProblem | null {
    const within = (problem: TemplateProblem): boolean => {
      if (kind === "cell") {
        const { fenceLine, lastLine } = this.#template.cells[index]!;
        return problem.line >= fenceLine && problem.line <= lastLine + 1;
      }
      const { line, column, source } = this.#template.inlines[index]!;
      return problem.line === line && problem.column >= column - 4 && problem.column <= column + source.length;
    };
    return sortProblems(this.#problems).find(within) ?? null;
  }

  #reportInModule(start: number, length: number, said: Parameters<typeof problemAt>[3]): void {
    const at = this.#assembly.locate(start, length);
    this.#report(at.place, at.length, said);
  }

  #report(place: Parameters<typeof problemAt>[1], length: number, said: Parameters<typeof problemAt>[3]): void {
    this.#problems.push(problemAt(this.#template.file, place, length, said));
  }
}

function withoutPlace(free: SlotNames["free"][number]): FreeName {
  const { name, source, cell, module, export: exported } = free;
  return {
    name,
    source,
    ...(cell === undefined ? {} : { cell }),
    ...(module === undefined ? {} : { module }),
    ...(exported === undefined ? {} : { export: exported }),
  };
}
