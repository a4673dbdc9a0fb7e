import { createHash } from "node:crypto";
import { drawChart } from "../../src/figures/draw.js";
import "ses";
import { samples } from "../../tools/figure-sheet/samples.js";

/**
 * Draws every sample in a process of its own and prints one line a drawing: id, sha256 of SVG, table and CSV. With `sealed`
 * the process is locked down first, as the one that runs templates, and every chart is frozen before it is drawn; with `reversed` the last is drawn first.
 */
const isSealed = process.argv.includes("sealed");
// Without the severe taming, code that assigns `constructor` or `toString` to its own objects, as decimal arithmetic does, throws.
if (isSealed) lockdown({ errorTaming: "safe", localeTaming: "safe", overrideTaming: "severe", reporting: "none" });
const all = [...samples()];
if (process.argv.includes("reversed")) all.reverse();
const lines = all.map(({ id, question, chart }) => {
  if (isSealed) harden(chart);
  const { svg, csv, description } = drawChart(chart, id, { title: question });
  return `${id} ${createHash("sha256").update(`${svg}\n${csv}\n${description}`).digest("hex")}`;
});
process.stdout.write(`${lines.sort().join("\n")}\n`);
