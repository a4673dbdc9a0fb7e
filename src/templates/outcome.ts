import type { Token } from "markdown-it";
import type { Chart } from "../figures/chart.js";
import type { Link } from "../figures/link.js";
import type { Result } from "../figures/result.js";
import type { Table } from "../figures/table.js";
import type { Count, Measured } from "../metrology/quantity.js";
import type { Verdict } from "../metrology/verdict.js";

export type Role = "work" | "figure" | "table" | "criterion";

/** A fenced block of a role, by its place in the template. Lines are 1-based lines of the template file. */
export interface Cell {
  /** Position among all cells, in page order; the page's mark is `W${index + 1}`. */
  readonly index: number;
  readonly role: Role;
  /** From the fence: `figure key-spread: Caption`; a work cell may have none. */
  readonly id: string | null;
  readonly caption: string | null;
  readonly fenceLine: number;
  readonly firstLine: number;
  readonly lastLine: number;
  readonly source: string;
}

/** An inline value `[= expression =]`. */
export interface Inline {
  readonly index: number;
  readonly line: number;
  /** 1-based column of the expression's first character. */
  readonly column: number;
  readonly source: string;
}

/** A pointer to a figure, table or criterion of the same dossier. */
export interface Reference {
  readonly kind: "reference";
  readonly target: string;
}

export type { Result } from "../figures/result.js";

/** What an inline value may be, alone. A bare number is refused: E_BARE_NUMBER. */
export type SinglePrintable = Measured | Count | Verdict | Reference | Result | Link | string;

/** Several of them set one after another. */
export interface Phrase {
  readonly kind: "phrase";
  readonly parts: readonly SinglePrintable[];
}

/** What an inline value may be. */
export type Printable = SinglePrintable | Phrase;

/** What is wrong with a template, or what a cell ran into, as data. */
export interface TemplateProblem {
  /** Stable, upper case: `E_BARE_NUMBER`, `E_TYPE`, `E_CELL_THREW`, `E_NOT_RUN`, `E_TIME`, `E_MEMORY`, ... */
  readonly code: string;
  readonly severity: "error" | "warning";
  /** The template's path as given by the user. */
  readonly file: string;
  /** 1-based. */
  readonly line: number;
  readonly column: number;
  readonly length: number;
  readonly message: string;
  readonly hint: string;
}

export type CellOutcome =
  | { readonly cell: Cell; readonly status: "done"; readonly result: Chart | Table | Verdict | null }
  | { readonly cell: Cell; readonly status: "failed" | "not_run"; readonly problem: TemplateProblem };

export type InlineOutcome =
  | {
      readonly inline: Inline;
      readonly status: "done";
      readonly result: Printable;
      /** Indices of the work cells whose names it uses, directly or through other work cells; for its mark. */
      readonly workCells: readonly number[];
    }
  | { readonly inline: Inline; readonly status: "failed" | "not_run"; readonly problem: TemplateProblem };

/**
 * A template that ran. `tokens` are markdown-it's block tokens; a cell stands as a token of type `benchfolio_cell` with
 * `meta: { index }`, an inline value as an inline child of type `benchfolio_value` with `meta: { index }`.
 */
export interface TemplateRun {
  readonly file: string;
  readonly source: string;
  readonly frontMatter: Readonly<Record<string, unknown>>;
  readonly tokens: readonly Token[];
  readonly cells: readonly CellOutcome[];
  readonly inlines: readonly InlineOutcome[];
}
