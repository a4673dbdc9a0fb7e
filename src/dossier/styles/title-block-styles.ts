/** The title block and the schedule of results. */
export const titleBlockStyles = `
.title-block { display: grid; grid-template-columns: repeat(12, minmax(0, 1fr)); border: 2px solid var(--line); overflow: hidden; font-family: var(--label); font-size: .95rem; line-height: 1.35; }
.title-block dl { display: contents; }
.title-block dl > div, .title-cell { padding: .4rem .7rem .55rem; border: 0 solid var(--hair); border-width: 0 1px 1px 0; margin: 0 -1px -1px 0; min-width: 0; }
.title-block dt, .field, .particular { color: var(--quiet); font-size: .8rem; }
.title-block dd { margin: 0; }
.title-block .line { display: block; }
.title-cell { grid-column: 1 / 9; grid-row: 1 / 3; display: flex; flex-direction: column; justify-content: space-between; padding-bottom: .8rem; }
.title-cell h1 { font: 400 2.3rem/1.08 var(--label); margin: 1.6rem 0 0; text-wrap: balance; }
.field-number { grid-column: 9 / 13; }
.field-number strong { font: 400 2.3rem/1.1 var(--label); letter-spacing: .04em; }
.field-revision { grid-column: 9 / 11; }
.field-sheet { grid-column: 11 / 13; }
.field-item { grid-column: 1 / 6; grid-row: 3; }
.field-methods { grid-column: 6 / 13; grid-row: 3; }
.field-laboratory { grid-column: 1 / 6; grid-row: 4 / 6; }
.field-customer { grid-column: 6 / 10; grid-row: 4; }
.field-work { grid-column: 10 / 13; grid-row: 4; }
.field-issued { grid-column: 6 / 8; grid-row: 5; }
.field-approved { grid-column: 8 / 10; grid-row: 5; }
.field-template { grid-column: 10 / 13; grid-row: 5; }
.field-amends { grid-column: 1 / 13; }
.on-paper { display: none; }
.problem-count { grid-column: 1 / 13; margin: .7rem !important; }
.problem-count ul { columns: 2; padding-left: 1.2rem; }
.schedule { margin-top: 2.6rem; }
.schedule h2, .part > h2 { font: 400 1.5rem/1.2 var(--label); margin: 0; }
.schedule table { width: 100%; border-collapse: collapse; margin-top: .6rem; border-top: 2px solid var(--line); border-bottom: 2px solid var(--line); line-height: 1.35; }
.schedule thead th { font: 400 .8rem/1.3 var(--label); color: var(--quiet); padding: .3rem .6rem .3rem 0; text-align: left; vertical-align: bottom; }
.schedule tbody th, .schedule td { font-weight: 400; text-align: left; padding: .28rem .6rem .28rem 0; border-top: 1px solid var(--hair); vertical-align: baseline; }
.schedule tbody th[scope="row"] { padding-left: var(--number); width: 60%; }
.schedule td:last-child { padding-left: 1.4rem; }
.schedule thead th:last-child { padding-left: 1.4rem; }
.schedule tbody .schedule-section th { font: 400 1.05rem/1.3 var(--label); padding: .5rem 0 .3rem; border-top: 1px solid var(--line); }
.schedule-number { float: left; width: var(--number); min-height: 1px; padding: .1rem 0; }
.schedule .schedule-annexes .schedule-section + tr th { border-top-color: var(--hair); }
.schedule .numeric { text-align: right; white-space: nowrap; }
.schedule tbody a { display: inline-block; padding: .1rem 0; }
.coverage { font-size: .9rem; color: var(--quiet); margin-top: .6rem; max-width: 46rem; }
`;
