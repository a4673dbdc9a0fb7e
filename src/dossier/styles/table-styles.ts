/** Tables that readers may sort and filter: controls only where the page's script runs, their room kept from the start. */
export const tableStyles = `
.table-tools, .sort { display: none; }
.scripted .table-tools { display: flex; flex-wrap: wrap; align-items: end; gap: .6rem 1.1rem; margin: 0 0 .9rem; font: .9rem/1.3 var(--label); }
.table-tools label { color: var(--quiet); display: grid; gap: .15rem; font-size: .94em; }
.table-tools select, .table-tools .all-rows { font: 1rem/1.3 var(--label); color: var(--ink); background: var(--paper); border: 1px solid var(--line); border-radius: 0; padding: .25rem .5rem; min-height: 2rem; max-width: 15rem; }
.table-tools .all-rows { cursor: pointer; padding: .25rem .9rem; }
.table-tools .all-rows:hover, .sort:hover { text-decoration: underline 2px; }
.table-state { flex: 1 0 100%; min-height: 1.3em; color: var(--quiet); }
.scripted .sort-label { display: none; }
.scripted .sort { display: inline-block; font: inherit; color: inherit; text-align: inherit; background: none; border: 0; margin: 0; padding: .3rem 0; min-height: 24px; min-width: 24px; cursor: pointer; }
.sort-sign::before { content: "\\2195"; color: var(--quiet); }
[aria-sort] .sort { color: var(--ink); }
[aria-sort="ascending"] .sort-sign::before { content: "\\2191"; color: var(--ink); }
[aria-sort="descending"] .sort-sign::before { content: "\\2193"; color: var(--ink); }
@media print { .table-tools label, .table-tools .all-rows, .sort-sign { display: none !important; } .scripted .sort { padding: 0; min-height: 0; } }
`;
