import type { Chain, ChainStep } from "./chain.js";
import type { GroundEntry } from "./ground-book.js";
import type { FileRows } from "./line-ranges.js";
import { describeLines } from "./line-ranges.js";
import type { Markup } from "./markup.js";
import { html, join, nothing } from "./markup.js";
import type { Page } from "./page-state.js";
import { renderCitation } from "./render-mark.js";

type EntryChain = Chain<GroundEntry>;

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
    ...chain.rows.map((rows) => renderFileRows(setting, rows)),
  ];
  if (ends.length === 0) return [];
  if (ends.length === 1) return [html`${arrow}${ends[0]!}`];
  return [
    html`<ul>
      ${ends.map((end) => html`<li>${end}</li>`)}
    </ul>`,
  ];
}

function renderStep(setting: Setting, step: ChainStep<GroundEntry>): Markup {
  const operations = step.operations.map(({ text, times, alike }) => {
    if (alike) return `${times} like “${text}”`;
    return times === 1 ? text : `${times}\u00a0× ${text}`;
  });
  const notes = step.notes.length === 0 ? nothing : html` <span class="note">(${step.notes.join("; ")})</span>`;
  return html`<span class="operation">${operations.join(", ")}</span>${notes}${renderEnds(setting, step.from, " ← ")}`;
}

/** Numbers whose grounds stand elsewhere: "2c1 to 2c8", or one by one. */
function renderKnown(entries: readonly GroundEntry[]): Markup {
  const first = entries[0]!;
  const last = entries.at(-1)!;
  const whole = entries.every((entry, index) => entry.ground === first.ground && entry.place === first.place + index);
  if (whole && entries.length > 2) return html`grounds ${renderCitation(first)} to ${renderCitation(last)}`;
  return html`${entries.length === 1 ? "ground" : "grounds"} ${join(entries.map(renderCitation), " ")}`;
}

/** "units/u07/s2/force.csv lines 2–801 (displacement_mm, force_cN)", leading to the file's sha256. */
function renderFileRows({ page, below }: Setting, rows: FileRows): Markup {
  const columns =
    rows.columns.length === 0 ? nothing : html` <span class="columns">(${rows.columns.join(", ")})</span>`;
  return html`${renderPath(page, rows.file)}
  ${below.has(rows.file) ? "lines as listed below" : describeLines(rows.ranges)}${columns}`;
}

/** A file's path, leading to its line in the annex where it has one. */
export function renderPath(page: Page, path: string): Markup {
  const anchor = page.fileAnchors.get(path);
  const name = html`<code>${path}</code>`;
  return anchor === undefined ? name : html`<a class="path" href="#${anchor}">${name}</a>`;
}
