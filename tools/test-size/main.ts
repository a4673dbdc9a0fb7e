import { outcomeOf } from "./experiment.js";
import { experiments } from "./experiments.js";

// Sizes of the tests and coverages of the intervals over seeded runs; exits 1 where one leaves its gate.
const runs = Number(process.argv[2] ?? 5000);
if (!(Number.isInteger(runs) && runs >= 100))
  throw new RangeError(`the number of runs is ${process.argv[2]}; at least 100`);
// A second argument runs only the experiments whose name contains it.
const wanted = experiments.map((experiment, i) => ({ experiment, seed: 1000 + i }));
const chosen = wanted.filter(({ experiment }) => experiment.name.includes(process.argv[3] ?? ""));
if (chosen.length === 0) throw new RangeError(`no experiment's name contains "${process.argv[3]}"`);
const widest = Math.max(...chosen.map(({ experiment }) => experiment.name.length));
console.log(`${runs} seeded runs at alpha 0.05 or level 95 %`);
console.log(`${"experiment".padEnd(widest)}  aim       share   gate`);
let missed = 0;
chosen.forEach(({ experiment, seed }) => {
  const outcome = outcomeOf(experiment, runs, seed);
  const gated = outcome.aim !== "printed" && outcome.aim !== "rate";
  const gate = gated ? `${outcome.low.toFixed(4)} to ${outcome.high.toFixed(4)}` : "told";
  if (!outcome.passes) missed++;
  console.log(
    `${experiment.name.padEnd(widest)}  ${outcome.aim.padEnd(8)}  ${outcome.share.toFixed(4)}  ${gate}${outcome.passes ? "" : "  MISSED"}`,
  );
});
console.log(missed === 0 ? "all within their gates" : `${missed} outside their gates`);
process.exitCode = missed > 0 ? 1 : 0;
