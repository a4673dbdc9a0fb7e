import type { Chain, ChainStep } from "./chain.js";
import type { Ground, GroundEntry } from "./ground-book.js";
import type { FileRows } from "./line-ranges.js";
import { describeLines } from "./line-ranges.js";
import type { Markup } from "./markup.js";
import { html, join, nothing } from "./markup.js";
import type { Page } from "./page-state.js";
import { renderCitation, renderTraceMark } from "./render-mark.js";
import type { Trace } from "./trace-book.js";

/** What stands elsewhere on the page and is cited in place of its evidence. */
export type Cited = GroundEntry | Trace;

type EntryChain = Chain<Cited>;

/**
 * A chain of evidence as one line while it does not branch, "mean of 8 keys ← 8 × mean of 3 cycles ← ...", and as a nested
 * list from where it does.
 * @param below files whose lines are listed in a table below the chain
 */
export function renderChain(page: Page, chain: EntryChain, below: ReadonlySet<string>): Markup {
  return join(renderEnds({ page, below }, chain, ""));
}

interface Setting {
  readonly page: Page;
  /** Files whose lines stand in a table below. */
  readonly below: ReadonlySet<string>;
}

/** Everything a level rests on: its steps, numbers with grounds of their own, rows. */
function renderEnds(setting: Setting, chain: EntryChain, arrow: string): readonly Markup[] {
  const ends = [
    ...chain.steps.map((step) => renderStep(setting, step)),
    ...(chain.known.length > 0 ? [renderKnown(chain.known)] : []),
    ...chain.rows.map((rows) =>
      setting.below.has(rows.file)
        ? renderFileRows(setting.page, rows, "lines as listed below")
        : renderFileRows(setting.page, rows),
    ),
  ];
  if (ends.length === 0) return [];
  if (ends.length === 1) return [html`${arrow}${ends[0]!}`];
  return [
    html`<ul>
      ${ends.map((end) => html`<li>${end}</li>`)}
    </ul>`,
  ];
}

function renderStep(setting: Setting, step: ChainStep<Cited>): Markup {
  const operations = step.operations.map(({ text, times, alike }) => {
    if (alike) return `${times} like “${text}”`;
    return times === 1 ? text : `${times}\u00a0× ${text}`;
  });
  const notes = step.notes.length === 0 ? nothing : html` <span class="note">(${step.notes.join("; ")})</span>`;
  return html`<span class="operation">${operations.join(", ")}</span>${notes}${renderEnds(setting, step.from, " ← ")}`;
}

/** "grounds 2c1 to 2c8, 3a", "traces T1 to T24", or both. */
function renderKnown(cited: readonly Cited[]): Markup {
  const isTrace = (each: Cited): each is Trace => "kind" in each;
  const kinds = [
    { word: "ground", items: cited.filter((each) => !isTrace(each)) },
    { word: "trace", items: cited.filter(isTrace) },
  ].filter(({ items }) => items.length > 0);
  return join(
    kinds.map(({ word, items }) => html`${word}${items.length === 1 ? "" : "s"} ${renderRuns(items)}`),
    " and ",
  );
}

/** What is cited, gathered by ground and in order: "7j1 to 7j42, 7h, T1 to T3". */
export function renderRuns(cited: readonly Cited[]): Markup {
  const lists = new Map<Ground | "traces", Cited[]>();
  for (const each of cited) {
    const list = "kind" in each ? "traces" : each.ground;
    lists.set(list, [...(lists.get(list) ?? []), each]);
  }
  const runs = [...lists.values()].flatMap((items) => runsOf([...items].sort((a, b) => placeOf(a) - placeOf(b))));
  const parts = runs.map((run) => {
    const marks = run.length > 2 ? [run[0]!, run.at(-1)!] : run;
    return join(marks.map(renderMarkOf), run.length > 2 ? " to " : ", ");
  });
  return join(parts, ", ");
}

function runsOf(items: readonly Cited[]): readonly (readonly Cited[])[] {
  const runs: Cited[][] = [];
  for (const item of items) {
    const open = runs.at(-1);
    if (open !== undefined && placeOf(open.at(-1)!) + 1 === placeOf(item)) open.push(item);
    else runs.push([item]);
  }
  return runs;
}

function placeOf(cited: Cited): number {
  return "kind" in cited ? cited.number : cited.place;
}

function renderMarkOf(cited: Cited): Markup {
  return "kind" in cited ? renderTraceMark(cited) : renderCitation(cited);
}

/**
 * "units/u07/s2/force.csv lines 2–801 (displacement_mm, force_cN)", leading to the file's sha256.
 * @param lines words for the lines; empty for none
 */
export function renderFileRows(page: Page, rows: FileRows, lines = describeLines(rows.ranges)): Markup {
  const columns =
    rows.columns.length === 0 ? nothing : html` <span class="columns">(${rows.columns.join(", ")})</span>`;
  return html`${renderPath(page, rows.file)}${lines === "" ? "" : ` ${lines}`}${columns}`;
}

/** A file's path, leading to its line in the annex where it has one. */
export function renderPath(page: Page, path: string): Markup {
  const listed = page.files.get(path);
  const name = html`<code>${path}</code>`;
  return listed === undefined ? name : html`<a class="path" href="#${listed.anchor}">${name}</a>`;
}
