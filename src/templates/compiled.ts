import type { TemplateProblem } from "./outcome.js";
import type { Subject } from "./subjects.js";

/** Where a slot's free name comes from. `builtin`: the language's own, such as Math. */
export type NameSource = "work" | "import" | "scope" | "word" | "see" | "builtin";

export interface FreeName {
  readonly name: string;
  readonly source: NameSource;
  /** `work`: index of the work cell that declares it. */
  readonly cell?: number;
  /** `import` and `word`: the module and its export; "*" is the module itself. */
  readonly module?: string;
  readonly export?: string;
}

/** One cell or inline value, ready to run: its code with the types erased, on the template's own lines and columns. */
export interface CompiledSlot {
  readonly kind: "cell" | "inline";
  /** Index among the cells, or among the inline values. */
  readonly index: number;
  /** 1-based place of the first character of `code`. */
  readonly line: number;
  readonly column: number;
  readonly code: string;
  readonly names: readonly FreeName[];
  /** Work cells: the names that other slots may use. */
  readonly declares: readonly string[];
  /** Work cells that it needs, directly or through others, ascending. */
  readonly workCells: readonly number[];
  /** The first problem that a check found in it; then it does not run. */
  readonly problem: TemplateProblem | null;
}

/** A checked template as plain data, which can be sent to another process. */
export interface CompiledTemplate {
  readonly file: string;
  readonly source: string;
  readonly subject: Subject;
  readonly methods: readonly string[];
  /** Specifiers of every module that a run must be given. */
  readonly modules: readonly string[];
  /** Names of the subject's scope that a run must be given. */
  readonly scopeNames: readonly string[];
  readonly cells: readonly CompiledSlot[];
  readonly inlines: readonly CompiledSlot[];
}

/**
 * The program of a slot: an expression that gives a function of the slot's free names. Line and column of every character
 * of the slot are those of the template.
 */
export function programText(slot: CompiledSlot): string {
  const parameters = slot.names.map(({ name }) => name).join(", ");
  const lead = "\n".repeat(slot.line - 2);
  const indent = " ".repeat(slot.column - 1);
  if (slot.kind === "inline") return `${lead}(function (${parameters}) { return (\n${indent}${slot.code}\n)})`;
  const result = slot.declares.length === 0 ? "" : `return { ${slot.declares.join(", ")} };`;
  return `${lead}(function (${parameters}) {\n${indent}${slot.code}\n${result}})`;
}
