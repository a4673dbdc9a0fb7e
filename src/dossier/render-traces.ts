import type { Markup } from "./markup.js";
import { html, join, nothing } from "./markup.js";
import type { Page } from "./page-state.js";
import { renderFileRows } from "./render-chain.js";
import { describeLines } from "./line-ranges.js";
import type { TraceGroup } from "./trace-book.js";

/** The annex of traces: rows that several grounds cite, with what all of a group share said once; nothing without traces. */
export function renderTraces(page: Page): Markup {
  const groups = page.traces?.groups() ?? [];
  if (groups.length === 0) return nothing;
  return html`<p>
      Raw rows that more than one number rests on. A ground cites them by their number, T1 and so on, in place of their
      files and lines.
    </p>
    ${groups.map((group) => renderGroup(page, group))}`;
}

function renderGroup(page: Page, group: TraceGroup): Markup {
  const { traces, common, own } = group;
  const files = new Set(own.flatMap((rows) => rows.map(({ file }) => file)));
  const only = files.size === 1 && traces.length > 1 ? own[0]![0] : undefined;
  const [first, last] = [traces[0]!.number, traces.at(-1)!.number];
  const shared = common.map((rows) => renderFileRows(page, rows));
  const head = [
    ...(shared.length > 0 ? [html`all of them ${join(shared, ", ")}`] : []),
    ...(only === undefined ? [] : [html`each its own lines of ${renderFileRows(page, only, "")}`]),
  ];
  const name = first === last ? `T${first}` : `T${first} to T${last}`;
  const items = traces.map(({ number, operation, note }, index) => {
    const rows = own[index]!.map((each) =>
      only === undefined ? renderFileRows(page, each) : describeLines(each.ranges),
    );
    const said = note === null ? nothing : html` <span class="note">(${note})</span>`;
    return html`<li id="T${number}">
      <span class="ground-letter">T${number}</span> ${operation}${said}: ${join(rows, ", ")}
    </li>`;
  });
  return html`<section class="traces" aria-label="Traces ${name}">
    ${head.length === 0 ? nothing : html`<p>${name}: ${join(head, "; ")}.</p>`}
    <ul>
      ${items}
    </ul>
  </section> `;
}
