import { fileURLToPath } from "node:url";
import { Command, InvalidArgumentError } from "commander";
import { openPool } from "../../src/build/pool.js";
import { nearestName } from "../../src/records/nearest.js";
import type { PlantedEffect } from "../simulation/planted-effects.js";
import { soughtEffects } from "./effects.js";
import type { Judged } from "./judge-archive.js";
import { renderMarkdown } from "../coverage/render-table.js";
import { writePage } from "../coverage/write-page.js";
import { effectsTable, renderTallies, reportsTable } from "./render-tallies.js";
import { tallyEffects, tallyReports } from "./tally.js";
import type { ClaimsJob } from "./worker.js";

const everyEffect = Object.keys(soughtEffects) as PlantedEffect[];
const nothing = "nothing";

function wholeNumber(text: string): number {
  if (!/^[1-9]\d*$/.test(text)) throw new InvalidArgumentError(`"${text}" is no whole number from 1 up.`);
  return Number(text);
}

function effectName(text: string): string {
  const known = [nothing, ...everyEffect];
  if (known.includes(text)) return text;
  const nearest = nearestName(text, known);
  throw new InvalidArgumentError(
    nearest === undefined ? `Effects are ${known.join(", ")}.` : `Did you mean "${nearest}"?`,
  );
}

const command = new Command("claims")
  .description(
    "Counts what the reports claim of generated archives: with nothing planted, and with each effect planted alone.",
  )
  .option("--archives <n>", "archives with nothing planted", wholeNumber, 200)
  .option("--each <n>", "archives for each planted effect (default: as --archives)", wholeNumber)
  .option("--seed <n>", "seed of the first archive; the next have the numbers that follow", wholeNumber, 1)
  .option("--workers <n>", "processes that work side by side", wholeNumber, 1)
  .option("--effect <name>", `only this effect; "${nothing}": only archives with nothing planted`, effectName)
  .option("--write", "renew the tables of docs/claims.md; for a run of all effects")
  .parse();
const options = command.opts<{
  archives: number;
  each?: number;
  seed: number;
  workers: number;
  effect?: string;
  write?: true;
}>();
if (options.write === true && options.effect !== undefined) {
  command.error("--write needs a run of all effects, for it renews both tables; leave out --effect.");
}

/** Seeds of archives with an effect follow those with nothing, so that no archive shares its scatter with another kind. */
function planJobs(): readonly ClaimsJob[] {
  const { archives, each = archives, seed, effect } = options;
  const count = (n: number, first: number, planted: PlantedEffect | null): readonly ClaimsJob[] =>
    Array.from({ length: n }, (_, index) => ({ seed: first + index, effect: planted }));
  return [
    ...(effect === undefined || effect === nothing ? count(archives, seed, null) : []),
    ...everyEffect
      .filter((name) => effect === undefined || effect === name)
      .flatMap((name) => count(each, seed + 1000 * (1 + everyEffect.indexOf(name)), name)),
  ];
}

const jobs = planJobs();
const judged = new Array<Judged>(jobs.length);
const pool = openPool<ClaimsJob, Judged>(new URL("./worker.ts", import.meta.url), {
  size: Math.min(options.workers, jobs.length),
  init: "start",
});
let done = 0;
try {
  await Promise.all(
    jobs.map(async (job, index) => {
      judged[index] = await pool.run(job);
      done++;
      if (process.stderr.isTTY) process.stderr.write(`\r${done} of ${jobs.length} archives`);
    }),
  );
} finally {
  pool.close();
}
if (process.stderr.isTTY) process.stderr.write("\n");
const reports = tallyReports(judged);
const effects = tallyEffects(judged);
console.log(renderTallies(reports, effects));
const missed = [
  ...reports.filter(({ withClaim, most }) => withClaim > most).map(({ report }) => report),
  ...effects.filter(({ meetsBar }) => !meetsBar).map(({ effect }) => effect.replaceAll("_", " ")),
];
const verdict = missed.length === 0 ? "all lines meet the bar" : `below the bar: ${missed.join(", ")}`;
console.log(`\n${verdict}`);
if (options.write === true) {
  const { archives, each = archives, seed } = options;
  const head = `${archives} archives with nothing planted and ${each} with each effect, seed ${seed}: ${verdict}.`;
  writePage(fileURLToPath(new URL("../../docs/claims.md", import.meta.url)), {
    claims: `${head}\n\n${renderMarkdown(reportsTable(reports))}`,
    effects: renderMarkdown(effectsTable(effects)),
  });
}
process.exitCode = missed.length === 0 ? 0 : 1;
