/** Narrow windows: one column, numbers above their text. */
export const narrowStyles = `
@media screen and (max-width: 52rem) {
  :root { --number: 0rem; }
  body { padding: .8rem .9rem 3rem; }
  .title-block { grid-template-columns: repeat(2, minmax(0, 1fr)); }
  .title-block dl > div, .title-cell { grid-column: 1 / 3; grid-row: auto; }
  .title-block .field-revision, .title-block .field-issued { grid-column: 1; }
  .title-block .field-sheet, .title-block .field-approved { grid-column: 2; }
  .title-cell h1 { font-size: 1.8rem; margin-top: .8rem; }
  .problem-count { grid-column: 1 / 3; }
  .problem-count ul { columns: 1; }
  .schedule table, .schedule tbody { display: block; }
  .schedule thead { position: absolute; clip-path: inset(50%); width: 1px; height: 1px; overflow: hidden; }
  .schedule tbody tr { display: grid; grid-template-columns: 1fr 1fr; border-top: 1px solid var(--hair); padding: .25rem 0; }
  .schedule tbody tr.schedule-section { border-top-color: var(--line); padding: 0; }
  .schedule .schedule-annexes .schedule-section + tr { border-top-color: var(--hair); }
  .schedule tbody th, .schedule td, .schedule tbody th[scope="row"], .schedule tbody .schedule-section th { border: 0; padding: .05rem 0; width: auto; text-align: left; }
  .schedule tbody th { grid-column: 1 / 3; }
  .schedule td:last-child { text-align: right; padding: 0; }
  .schedule td:empty { display: none; }
  .schedule td.numeric:empty + td { grid-column: 1 / 3; text-align: left; }
  .schedule-number, .heading-number { width: auto; margin-right: .7em; }
  .schedule-number:empty { margin: 0; }
  .figure { grid-template-columns: minmax(0, 1fr); }
  .figure .plate-heading { grid-column: 1; }
  .ground-list, .traces ul { columns: 1; }
  .ground, .ground.several { padding-left: 0; }
  .ground h4 .ground-letter { position: static; margin-right: .5em; }
  .ground > .budget { width: 100%; }
  .budget th, .budget td { padding-right: .7rem; }
  .region { scroll-padding-left: 8.5rem; }
  .data { width: max-content; }
  .data td { max-width: 15rem; }
  .data th[scope="row"], .data thead th:first-child { position: sticky; left: 0; z-index: 1; max-width: 8rem; background: var(--paper); }
  .code { padding-left: 2.8rem; }
  .schedule .numeric { text-align: left; }
}
`;
