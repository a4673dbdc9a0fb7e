import { styleString } from "../markup.js";

/** What stands on every printed sheet. */
export interface RunningTexts {
  readonly dossier: string;
  readonly item: string;
  readonly laboratory: string;
}

/** The labels' faces; a margin box cannot read the page's custom properties everywhere. */
const marginFont = 'Bahnschrift, "DIN Alternate", "Nimbus Sans Narrow", "Arial Narrow", sans-serif';

/** Paper: A4, running title and sheet numbers in the margins, grounds as endnotes after the last section. */
export function printStyles({ dossier, item, laboratory }: RunningTexts): string {
  return `
@page {
  size: A4; margin: 21mm 16mm 19mm 20mm;
  @top-left { content: ${styleString(`Dossier ${dossier}, ${item}`)}; font: 8.5pt ${marginFont}; }
  @top-right { content: ${styleString(laboratory)}; font: 8.5pt ${marginFont}; }
  @bottom-left { content: ${styleString(dossier === "DRAFT" ? "Draft: not issued, not approved" : `Dossier ${dossier}`)}; font: 8.5pt ${marginFont}; }
  @bottom-right { content: "Sheet " counter(page) " of " counter(pages); font: 8.5pt ${marginFont}; }
}
@media print {
  :root { color-scheme: light; --paper: #fff; --ink: #000; --quiet: #444; --line: #000; --hair: #999; --tint: #f2f2f2; --mark: #7a2414; --number: 11mm; }
  html { font-size: 10pt; }
  body { max-width: none; padding: 0; }
  main { display: flex; flex-direction: column; }
  .part:not(.annex) { display: contents; }
  .grounds { order: 1; }
  .annex { order: 2; }
  .part:not(.annex) > h2 { margin-top: 8mm; }
  .on-screen { display: none; } .on-paper { display: inline; }
  h1, h2, h3, h4, .plate-heading { break-after: avoid; }
  .title-block, .plate.figure, .criterion, .problem, tr, .code li { break-inside: avoid; }
  .schedule { margin-top: 7mm; }
  .schedule tbody th, .schedule td { padding-top: .12rem; padding-bottom: .12rem; }
  .schedule tbody .schedule-section th { padding: .22rem 0 .12rem; }
  .drawing svg { max-height: 205mm; width: auto; max-width: 100%; }
  .region { overflow: visible; }
  thead { display: table-header-group; }
  .plotted.slim > .region { columns: 3; column-gap: 6mm; }
  a { text-decoration: none; }
  :target { outline: none; background: none; }
  p, li { orphans: 3; widows: 3; }
}
`;
}
