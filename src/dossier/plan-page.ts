import type { Token } from "markdown-it";
import type { CellOutcome, TemplateRun } from "../templates/outcome.js";

/** A part of the page under one heading of the second level; the part before the first such heading is section 0. */
export interface Section {
  /** "0", "1", "2" ... as printed and as used in marks. */
  readonly key: string;
  readonly anchor: string;
  /** Its heading's inline token; null for the summary before the first heading. */
  readonly heading: Token | null;
  /** Block tokens after the heading. */
  readonly tokens: readonly Token[];
}

/** Where a cell stands on the page and what it is called there. */
export interface Place {
  readonly outcome: CellOutcome;
  /** "Figure 2.1", "Table 1.2", "Criterion 2.1", "Work cell". */
  readonly name: string;
  readonly anchor: string;
  /** Heading level of its own heading. */
  readonly level: number;
  readonly section: string;
}

/** The page before anything is rendered: its title, sections, and the names of all cells. */
export interface PagePlan {
  /** Inline token of the first heading of the first level; null where the template has none. */
  readonly title: Token | null;
  readonly sections: readonly Section[];
  /** By the cell's index. */
  readonly places: ReadonlyMap<number, Place>;
  /** By the cell's id, for references. */
  readonly byId: ReadonlyMap<string, Place>;
  /** Anchors of headings below the second level, by their opening token. */
  readonly headings: ReadonlyMap<Token, { readonly anchor: string; readonly number: string }>;
  /** Section of each inline value, by its index. */
  readonly inlineSections: ReadonlyMap<number, string>;
}

const roleNames = { figure: "Figure", table: "Table", criterion: "Criterion", work: "Work cell" } as const;

/** Splits a run's tokens into sections and numbers everything that is cited, in page order. */
export function planPage(run: TemplateRun): PagePlan {
  const { title, rest } = takeTitle(run.tokens);
  const sections = splitSections(rest);
  const outcomes = new Map(run.cells.map((outcome) => [outcome.cell.index, outcome]));
  const places = new Map<number, Place>();
  const headings = new Map<Token, { anchor: string; number: string }>();
  const inlineSections = new Map<number, string>();
  const anchors = new Set<string>();
  for (const section of sections) {
    const counts = { figure: 0, table: 0, criterion: 0, work: 0, heading: 0 };
    let level = 3;
    for (const inline of section.heading?.children ?? []) noteInline(inline, section.key, inlineSections);
    for (const token of section.tokens) {
      for (const inline of token.children ?? []) noteInline(inline, section.key, inlineSections);
      if (token.type === "heading_open" && token.level === 0) {
        const number = `${section.key}.${++counts.heading}`;
        headings.set(token, { anchor: `s${number.replace(".", "-")}`, number });
        level = Math.min(6, Number(token.tag.slice(1)) + 1);
      }
      const outcome = token.type === "benchfolio_cell" ? outcomes.get(tokenIndex(token)) : undefined;
      if (outcome === undefined) continue;
      const { role, id, index } = outcome.cell;
      const number = role === "work" ? "" : ` ${section.key}.${++counts[role]}`;
      const anchor = freshAnchor(id === null ? `cell-${index + 1}` : `r-${id}`, anchors, index);
      places.set(index, { outcome, name: `${roleNames[role]}${number}`, anchor, level, section: section.key });
    }
  }
  for (const inline of title?.children ?? []) noteInline(inline, "0", inlineSections);
  const byId = new Map<string, Place>();
  for (const place of places.values()) {
    const { id } = place.outcome.cell;
    if (id !== null && !byId.has(id)) byId.set(id, place);
  }
  return { title, sections, places, byId, headings, inlineSections };
}

/** The `index` in the meta of a cell's or an inline value's token; -1 where there is none. */
export function tokenIndex(token: Token): number {
  const meta: unknown = token.meta;
  if (typeof meta !== "object" || meta === null || !("index" in meta)) return -1;
  return typeof meta.index === "number" ? meta.index : -1;
}

function takeTitle(tokens: readonly Token[]): { title: Token | null; rest: readonly Token[] } {
  const start = tokens.findIndex((token) => token.type === "heading_open" && token.tag === "h1" && token.level === 0);
  if (start < 0) return { title: null, rest: tokens };
  return { title: tokens[start + 1] ?? null, rest: [...tokens.slice(0, start), ...tokens.slice(start + 3)] };
}

/** A further heading of the first level opens a section like one of the second. */
function splitSections(tokens: readonly Token[]): readonly Section[] {
  const sections: Section[] = [];
  let open: { key: string; heading: Token | null; tokens: Token[] } = { key: "0", heading: null, tokens: [] };
  const close = (): void => {
    if (open.heading !== null || open.tokens.length > 0) sections.push({ ...open, anchor: `s${open.key}` });
  };
  for (let index = 0; index < tokens.length; index++) {
    const token = tokens[index]!;
    if (token.type === "heading_open" && (token.tag === "h1" || token.tag === "h2") && token.level === 0) {
      close();
      open = { key: String(Number(open.key) + 1), heading: tokens[index + 1] ?? null, tokens: [] };
      index += 2;
    } else {
      open.tokens.push(token);
    }
  }
  close();
  return sections;
}

function noteInline(token: Token, section: string, sections: Map<number, string>): void {
  if (token.type === "benchfolio_value") sections.set(tokenIndex(token), section);
  for (const child of token.children ?? []) noteInline(child, section, sections);
}

function freshAnchor(wanted: string, taken: Set<string>, index: number): string {
  const plain = wanted.replace(/[^A-Za-z0-9_-]+/g, "-");
  const anchor = taken.has(plain) ? `${plain}-${index + 1}` : plain;
  taken.add(anchor);
  return anchor;
}
