import { availableParallelism } from "node:os";
import { parseArgs } from "node:util";
import type { BrokenAssumption } from "../simulation/simulate-unit.js";
import { figuresOf, missesOf } from "./bar.js";
import { brokenTable, coverageTable, renderMarkdown, renderText, verdictTable } from "./render-table.js";
import type { RowTotals } from "./run-totals.js";
import { totalsOf } from "./run-totals.js";
import { simulateRun } from "./simulate-run.js";
import { writePage } from "./write-page.js";

/**
 * Holds the stated uncertainties against the truth of simulated units, and prints a line for each characteristic and
 * target; exits 1 where a line misses the bar (docs/coverage.md):
 *
 *   npm run coverage -- [--units N] [--broken N] [--seed N] [--workers N] [--json] [--write]
 *
 * --broken: units for each broken assumption, default a fifth of the units; 0: none. --json: prints figures and sums as
 * JSON. --write: renews the tables of docs/coverage.md.
 */
const { values } = parseArgs({
  options: {
    units: { type: "string", default: "2000" },
    broken: { type: "string" },
    seed: { type: "string", default: "1" },
    workers: { type: "string", default: String(Math.min(8, availableParallelism())) },
    json: { type: "boolean", default: false },
    write: { type: "boolean", default: false },
  },
});

function whole(text: string, name: string, least: number): number {
  if (!/^\d+$/.test(text) || Number(text) < least) {
    throw new RangeError(`--${name} is ${JSON.stringify(text)}; it must be a whole number of at least ${least}`);
  }
  return Number(text);
}

const units = whole(values.units, "units", 1);
const seed = whole(values.seed, "seed", 0);
const workers = whole(values.workers, "workers", 0);
const brokenUnits = values.broken === undefined ? Math.floor(units / 5) : whole(values.broken, "broken", 0);
const assumptions: Readonly<Record<BrokenAssumption, string>> = {
  skew: "skewed",
  correlated_keys: "correlated keys",
  speed_off: "speed off by 10 %",
};

const progress = (title: string, of: number) => {
  let last = 0;
  return (done: number): void => {
    const tenth = Math.floor((10 * done) / of);
    if (tenth > last) process.stderr.write(`${title}: ${done} of ${of} units\n`);
    last = Math.max(last, tenth);
  };
};

const outcomes = await simulateRun({ units, seed, workers, onProgress: progress("assumptions hold", units) });
const rows = totalsOf(outcomes);
const runs: { title: string; rows: readonly RowTotals[] }[] = [{ title: "as assumed", rows }];
for (const [broken, title] of brokenUnits === 0 ? [] : (Object.entries(assumptions) as [BrokenAssumption, string][])) {
  const onProgress = progress(title, brokenUnits);
  runs.push({ title, rows: totalsOf(await simulateRun({ units: brokenUnits, seed, workers, broken, onProgress })) });
}

const missed = rows.filter((row) => missesOf(row).length > 0);
const head = `${units} simulated units, seed ${seed}`;
const verdict =
  missed.length === 0 ? `all ${rows.length} lines pass` : `${missed.length} of ${rows.length} lines miss the bar`;
const tables = { coverage: coverageTable(rows), verdicts: verdictTable(rows, outcomes), broken: brokenTable(runs) };
if (values.json) {
  const lines = runs.map(({ title, rows: of }) => ({
    title,
    lines: of.map((row) => ({ ...row.name, ...figuresOf(row), misses: missesOf(row), sums: row.all })),
  }));
  console.log(JSON.stringify({ units, brokenUnits, seed, runs: lines }, null, 2));
} else {
  console.log(`${head}\n\n${renderText(tables.coverage)}\n\n${verdict}`);
  console.log(`\nat a limit that lies exactly at the truth, not judged:\n\n${renderText(tables.verdicts)}`);
  if (runs.length > 1) {
    console.log(`\ncovered %, ${brokenUnits} units for each broken assumption, not judged:\n`);
    console.log(renderText(tables.broken));
  }
}
if (values.write) {
  writePage(new URL("../../docs/coverage.md", import.meta.url).pathname, {
    coverage: `${head}: ${verdict}.\n\n${renderMarkdown(tables.coverage)}`,
    verdicts: renderMarkdown(tables.verdicts),
    ...(runs.length > 1 ? { broken: `Covered %, ${brokenUnits} units each.\n\n${renderMarkdown(tables.broken)}` } : {}),
  });
}
process.exitCode = missed.length === 0 ? 0 : 1;
