/** Colours, type and the measure of the page. Paper and ink are also those of the figures. */
export const baseStyles = `
:root {
  color-scheme: light dark;
  --paper: #fcfcfa; --ink: #17202a; --quiet: #4b5762; --line: #17202a; --hair: #b4bcc2; --tint: #f0f2ee; --mark: #8c2b18;
  --figure-paper: var(--paper); --figure-ink: var(--ink); --figure-font: var(--label);
  --label: Bahnschrift, "DIN Alternate", "Franklin Gothic Medium", "Nimbus Sans Narrow", "Liberation Sans Narrow", "Arial Narrow", sans-serif-condensed, sans-serif;
  --text: Charter, "Bitstream Charter", "Sitka Text", "Century Schoolbook", C059, Cambria, "Noto Serif", serif;
  --fixed: ui-monospace, "Cascadia Mono", Menlo, "DejaVu Sans Mono", "Liberation Mono", monospace;
  --number: 4.25rem;
}
@media screen and (prefers-color-scheme: dark) {
  :root { --paper: #15191d; --ink: #e4e7e6; --quiet: #a9b2b8; --line: #c4cbcf; --hair: #46505a; --tint: #1d2328; --mark: #f2a48f; }
}
* { box-sizing: border-box; }
html { background: var(--paper); color: var(--ink); font: 1.0625rem/1.55 var(--text); -webkit-text-size-adjust: 100%; text-size-adjust: 100%; }
body { margin: 0 auto; max-width: 68rem; padding: 1.5rem 1.5rem 4rem; overflow-wrap: break-word; }
p, ul, ol, dl, figure, table { margin: 0; }
a { color: inherit; text-decoration: underline 1px var(--quiet); text-underline-offset: .18em; }
a:hover { text-decoration: underline 2px currentColor; }
:focus-visible { outline: 3px solid var(--mark); outline-offset: 2px; }
:target { background: var(--tint); outline: 2px solid var(--mark); outline-offset: 3px; }
code { font: .84em/1.4 var(--fixed); overflow-wrap: anywhere; }
i { font-family: var(--text); }
.number, .numeric { font-variant-numeric: lining-nums tabular-nums; }
.number, .cited, .whole, td.numeric { white-space: nowrap; }
.unseen { position: absolute; width: 1px; height: 1px; margin: -1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; }
`;
