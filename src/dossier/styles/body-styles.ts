/** Sections, prose, plates (figures, tables, criteria), problems. */
export const bodyStyles = `
.part { margin-top: 3.4rem; }
.part > h2 { border-top: 2px solid var(--line); padding-top: .55rem; display: flex; }
.heading-number { flex: none; width: var(--number); }
.prose > h3 { font: 400 1.2rem/1.25 var(--label); margin: 2rem 0 0; display: flex; }
.prose > h4, .prose > h5, .prose > h6 { font: 400 1.05rem/1.25 var(--label); margin: 1.6rem 0 0; display: flex; }
.prose > p, .prose > ul, .prose > ol, .prose > blockquote, .prose > .listing, .prose > .region, .prose > dl, .prose > .problem { margin: 1rem 0 0 var(--number); max-width: 42rem; }
.prose > .region { max-width: none; }
.prose > ul, .prose > ol { padding-left: 1.2rem; }
.prose > blockquote { padding-left: 1.2rem; border-left: 1px solid var(--hair); }
.listing { border: 1px solid var(--hair); padding: .6rem .8rem; white-space: pre-wrap; margin: 0; line-height: 1.4; }
.plate { margin: 2rem 0 0 var(--number); border-top: 1px solid var(--line); }
.plate + .plate { margin-top: 2.4rem; }
.plate-heading { font: 400 1.05rem/1.3 var(--label); margin: .45rem 0 .8rem; text-wrap: balance; }
.plate-name { color: var(--quiet); margin-right: .6em; }
.figure { display: grid; grid-template-columns: minmax(0, 35rem) minmax(11rem, 1fr); column-gap: 2rem; }
.figure .plate-heading { grid-column: 1 / 3; }
.figure figcaption { align-self: end; padding-bottom: .6rem; }
.finding { font-size: .95rem; line-height: 1.45; margin-top: .6rem; max-width: 42rem; }
.figure .finding { margin-top: 0; }
.to-values { font: .9rem/1.6 var(--label); color: var(--quiet); margin-top: .8rem; }
.gap { margin-top: 1.2rem; border-top-color: var(--hair); }
.plate.gap + .plate.gap { margin-top: .9rem; }
.gap .plate-heading { margin-bottom: 0; }
.plate.gap + .likewise { display: flex; flex-wrap: wrap; column-gap: .9em; align-items: baseline; margin-top: .25rem; border-top: 0; }
.likewise p { font: italic .95rem/1.3 var(--text); color: var(--quiet); }
.gap .finding { margin-top: .15rem; }
.criterion p { max-width: 42rem; }
.region { position: relative; overflow-x: auto; background: linear-gradient(var(--paper), var(--paper)) 100% 0 / 3px 100% no-repeat local, linear-gradient(var(--quiet), var(--quiet)) 100% 0 / 1px 100% no-repeat; }
.data { border-collapse: collapse; font: .98rem/1.35 var(--label); }
.data th, .data td { text-align: left; padding: .28rem 1.1rem .28rem 0; vertical-align: baseline; border-top: 1px solid var(--hair); font-weight: 400; }
.data thead th { font: 400 .85rem/1.3 var(--label); color: var(--quiet); vertical-align: bottom; border-top: 0; border-bottom: 1px solid var(--line); }
.data thead th .symbol { white-space: nowrap; }
.data .numeric { text-align: right; }
.mark, .working-mark { font: 400 .72rem/1 var(--label); color: var(--mark); text-decoration: none; display: inline-block; min-width: 1.5em; padding: .3em .35em; text-align: center; border: 1px solid currentColor; border-radius: 1em; vertical-align: .12em; }
.working-mark { border-radius: 0; }
.mark:hover, .working-mark:hover { background: var(--mark); color: var(--paper); }
.data .mark { border-color: transparent; text-decoration: underline; text-decoration-thickness: 1px; min-width: 2.2em; }
.verdict::before { content: ""; display: inline-block; width: .62em; height: .62em; border: 1.5px solid currentColor; margin-right: .4em; print-color-adjust: exact; -webkit-print-color-adjust: exact; }
.verdict.is-yes::before { background: currentColor; }
.verdict.is-undecided::before { background: linear-gradient(135deg, currentColor 50%, transparent 50%); }
.problem { border: 3px double var(--mark); padding: .7rem 1rem; background: var(--tint); margin-top: 1rem; font-family: var(--label); line-height: 1.4; }
.plate.problem, .prose > .problem { max-width: none; }
.problem-head strong { font-size: 1.15rem; font-weight: 400; margin-right: .5em; }
.problem p + p { margin-top: .3rem; }
.problem-inline { outline: 1px solid var(--mark); outline-offset: .15em; background: var(--tint); font: .92em/1.4 var(--label); padding: 0 .25em; }
`;
