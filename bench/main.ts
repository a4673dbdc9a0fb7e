import { readFileSync } from "node:fs";
import { join } from "node:path";
import * as Plot from "@observablehq/plot";
import { JSDOM } from "jsdom";
import { drawChart } from "../src/figures/draw.js";
import { intervalChart } from "../src/figures/index.js";
import { reduceKeystroke, reductionContext } from "../src/keystroke/index.js";
import type { KeystrokeMethod } from "../src/records/archive.js";
import { readArchive, readStrokes } from "../src/records/index.js";

/** One comparison: the tool's way beside the plainest script that does the same kind of work. */
interface Pair {
  readonly name: string;
  readonly ours: () => unknown;
  readonly plain: () => unknown;
}

const archive = readArchive("data");
const unit = archive.units.find((each) => each.id === "u01")!;
const session = unit.sessions.find((each) => each.method === "keystroke@2")!;
const method = archive.methods.get(session.method) as KeystrokeMethod;
const context = reductionContext(unit, session, method, archive.rigs.get(session.rig) ?? null);
const file = join(archive.root, session.folder, "force.csv");
const { strokes } = readStrokes(archive, session);
const { keys } = reduceKeystroke(strokes, context);
const page = new JSDOM("").window.document;

const pairs: readonly Pair[] = [
  {
    name: "read and check force.csv, against splitting its lines at commas",
    ours: () => readStrokes(archive, session),
    plain: () =>
      readFileSync(file, "utf8")
        .split("\n")
        .slice(1)
        .map((line) => line.split(",").map(Number)),
  },
  {
    name: "reduce a session with its budgets, against the largest force of each stroke",
    ours: () => reduceKeystroke(strokes, context),
    plain: () => strokes.map((stroke) => stroke.forceCn.reduce((largest, cN) => Math.max(largest, cN), 0)),
  },
  {
    name: "draw and normalise an interval chart, against the drawing library alone",
    ours: () =>
      drawChart(
        intervalChart(keys, (key) => key.actuationForce, { noun: "key" }),
        "f1",
        { title: "Force" },
      ),
    plain: () => Plot.plot({ document: page, marks: [Plot.dot(keys.map((_, index) => [index, index]))] }).outerHTML,
  },
];

const rounds = 15;

/** Runs both ways in turn and prints the median of the ratios, so that a drifting machine does not decide. */
for (const { name, ours, plain } of pairs) {
  const ratios: number[] = [];
  const times: number[] = [];
  for (let round = 0; round <= rounds; round++) {
    const [a, b] = [time(ours), time(plain)];
    if (round === 0) continue;
    ratios.push(a / b);
    times.push(a);
  }
  console.log(`${median(ratios).toFixed(1).padStart(8)} x  (${median(times).toFixed(1)} ms)  ${name}`);
}
console.log(`${rounds} rounds each, in turn; Node ${process.version}, ${process.arch}`);

function time(run: () => unknown): number {
  const start = process.hrtime.bigint();
  run();
  return Number(process.hrtime.bigint() - start) / 1e6;
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)]!;
}
