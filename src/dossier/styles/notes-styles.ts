/** Grounds, workings and the other annexes. */
export const notesStyles = `
.grounds { margin: 2.6rem 0 0 var(--number); border-top: 1px solid var(--line); font-family: var(--label); font-size: .92rem; line-height: 1.4; }
.grounds h3 { font: 400 .95rem/1.3 var(--label); color: var(--quiet); margin: .4rem 0 0; display: flex; align-items: center; gap: .6em; }
.grounds h3::before { content: ""; width: 1.3em; height: .8em; background: linear-gradient(currentColor, currentColor) 50% 0 / 100% 1.5px no-repeat, linear-gradient(currentColor, currentColor) 50% 50% / 62% 1.5px no-repeat, linear-gradient(currentColor, currentColor) 50% 100% / 26% 1.5px no-repeat; print-color-adjust: exact; -webkit-print-color-adjust: exact; }
.ground-list { columns: 2; column-gap: 2.2rem; }
.ground { padding: .9rem 0 .2rem 2.3rem; position: relative; break-inside: avoid; }
.ground.several { column-span: all; padding-left: 2.6rem; break-inside: auto; }
.ground h4 { font: 400 1rem/1.35 var(--label); margin: 0; }
.ground h4 .ground-letter { position: absolute; left: 0; min-width: 1.9rem; text-align: left; }
.ground-letter { color: var(--mark); }
.ground-letter a { color: inherit; display: inline-block; min-width: 1.5rem; }
.chain { margin-top: .25rem; }
.chain ul { padding-left: 1.1rem; list-style: none; }
.chain li { position: relative; }
.chain li::before { content: ""; position: absolute; left: -.9rem; top: .7em; width: .55rem; border-top: 1px solid var(--quiet); }
.chain code, .budget code { font-size: .82em; }
.columns, .note, .legend, .reason { color: var(--quiet); }
.budget { border-collapse: collapse; font-variant-numeric: lining-nums tabular-nums; margin: .5rem 0 .3rem; line-height: 1.3; font-size: .95em; }
.budget th, .budget td { font-weight: 400; text-align: right; white-space: nowrap; padding: .16rem 1rem .16rem 0; border-top: 1px solid var(--hair); vertical-align: baseline; }
.budget thead th { color: var(--quiet); border-top: 0; white-space: nowrap; vertical-align: bottom; }
.budget .words, .budget th[scope="row"], .said th, .said td { text-align: left; white-space: normal; }
.budget.entries th[scope="row"], .budget:not(.entries) td.words { white-space: nowrap; }
.budget.entries th .ground-letter { display: inline-block; min-width: 2.4rem; }
.entries td.words { min-width: 11rem; }
.legend { margin-top: .3rem; }
.run-in > span > .ground-letter { margin-right: .3em; }
.sheet { margin: 1.8rem 0 0 var(--number); border: 1px solid var(--line); }
.sheet h3, .plotted h3 { font: 400 1rem/1.4 var(--label); margin: 0; }
.sheet h3 { display: flex; border-bottom: 1px solid var(--line); }
.sheet h3 > span { padding: .3rem .8rem; }
.sheet h3 > span + span { border-left: 1px solid var(--hair); }
.sheet h3 > .sheet-mark { flex: none; width: 3.9rem; }
.sheet-mark { color: var(--mark); }
.sheet-role { flex: 1; min-width: 0; }
.sheet h3 > .sheet-lines { flex: none; color: var(--quiet); }
.state { font-weight: 400; border: 1px solid var(--mark); padding: 0 .4em; }
.code { padding: .5rem .8rem .6rem 3.9rem; font: .8rem/1.5 var(--fixed); }
.code code { font-size: 1em; line-height: inherit; }
.code li { padding-left: .6rem; border-left: 1px solid var(--hair); }
.code li::marker { content: counter(list-item) "\\2002"; font: .8rem var(--label); color: var(--quiet); }
.code code { white-space: pre-wrap; }
.code .at-fault { background: var(--tint); border-left: 3px solid var(--mark); }
.sheet .data .working-mark { padding: .45em .35em; }
.sheet .data { margin: .3rem .8rem .6rem; }
.plotted { margin: 1.8rem 0 0 var(--number); }
.plotted h3 { margin-bottom: .3rem; }
.plotted .data { font-size: .85rem; }
.plotted .data th, .plotted .data td { padding-top: .12rem; padding-bottom: .12rem; }
.plotted > .region { margin-top: .5rem; }
@media screen { .plotted > .region { max-height: 26rem; overflow: auto; border-bottom: 1px solid var(--hair); } .plotted thead th { position: sticky; top: 0; background: var(--paper); } }
.traces { margin: 1.4rem 0 0 var(--number); font: .92rem/1.4 var(--label); }
.traces ul { list-style: none; padding: 0; margin-top: .4rem; columns: 2; column-gap: 2.2rem; }
.annex .traces li + li { margin-top: 0; }
.traces li { break-inside: avoid; padding: .1rem 0 .1rem 2.6rem; text-indent: -2.6rem; border-top: 1px solid var(--hair); }
.traces li .ground-letter { display: inline-block; min-width: 2.6rem; text-indent: 0; }
.digest { font-size: .75em; }
.files th[scope="row"] { min-width: 10rem; }
.files td:last-child { min-width: 12rem; }
.statements dt { font: 400 1rem/1.4 var(--label); margin-top: .7rem; }
.statements dd { margin: 0; }
.annex li + li { margin-top: .3rem; }
.source { color: var(--quiet); font-size: .9em; }
.end { margin-top: 4rem; border-top: 2px solid var(--line); padding-top: .6rem; font-family: var(--label); display: flex; flex-wrap: wrap; justify-content: space-between; gap: .3rem 2rem; }
.end strong { font-weight: 400; }
`;
