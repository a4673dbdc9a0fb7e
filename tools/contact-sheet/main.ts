import * as Plot from "@observablehq/plot";
import { mkdirSync, writeFileSync } from "node:fs";
import { dirname } from "node:path";
import { parseArgs } from "node:util";
import { reduceKeystroke } from "../../src/keystroke/index.js";
import type { CycleReduction, KeyReduction } from "../../src/keystroke/index.js";
import { drawingDocument, renderPanel } from "./drawing.js";
import { sheetMethod } from "./sheet-method.js";
import { readStreamFolder } from "./stream-csv.js";
import { streamStrokes } from "./stream-strokes.js";

/**
 * Draws one page of small charts, one a stream file, with the marks of the reduction:
 *
 *   npm run contact-sheet -- DIR [--out FILE.html|FILE.svg]       default: reports/draft/contact-sheet.html
 *
 * DIR holds CSV files with the columns displacement_mm and force_gf, force_cN, force_N or force_mN. Marks: touch (T),
 * tactile peak (P), valley (V), bottom-out (B), and actuation (A) and reset (R) where there is a contact. Beside each
 * chart stand the values, and the flags of the curve.
 */
const { values, positionals } = parseArgs({ allowPositionals: true, options: { out: { type: "string" } } });
const [folder] = positionals;
const out = values.out ?? "reports/draft/contact-sheet.html";
if (folder === undefined || !/\.(svg|html)$/.test(out)) {
  console.error("use: npm run contact-sheet -- DIR [--out FILE.html|FILE.svg]");
  process.exit(2);
}
const width = 480;
const height = 300;
const columns = 3;
const document = drawingDocument();
const panels: string[] = [];
for (const file of readStreamFolder(folder)) {
  const reduction = reduceKeystroke(streamStrokes(file), {
    unit: "sheet",
    session: "s1",
    method: sheetMethod([file.name]),
    rig: { id: "none", calibration: null },
    contactSource: "none",
    exclusions: [],
  });
  const key = reduction.keys[0]!;
  panels.push(drawCycle(file.name, key, key.cycles[0]!));
  const flags = key.cycles.flatMap((cycle) => cycle.flags.map((flag) => `${flag.code}: ${flag.message}`));
  console.log(`${file.name}: ${key.curveKind}${flags.length === 0 ? "" : `; ${flags.join("; ")}`}`);
}
mkdirSync(dirname(out), { recursive: true });
writeFileSync(out, out.endsWith(".svg") ? oneSvg(panels) : onePage(panels));
console.log(`${panels.length} charts written to ${out}`);

function drawCycle(name: string, key: KeyReduction, cycle: CycleReduction): string {
  const { characteristics, curve } = cycle;
  const mark = (letter: string, x: typeof characteristics.preTravel, force: typeof characteristics.peakForce) =>
    x.absent || force.absent ? [] : [{ letter, x: x.value, y: force.value }];
  const marks = [
    { letter: "T", x: 0, y: 0 },
    ...mark("A", characteristics.preTravel, characteristics.actuationForce),
    ...mark("P", characteristics.peakPosition, characteristics.peakForce),
    ...mark("V", characteristics.valleyPosition, characteristics.valleyForce),
    ...mark("R", characteristics.resetPoint, characteristics.resetForce),
    ...mark("B", characteristics.totalTravel, characteristics.bottomOutForce),
  ];
  const points = [...curve.press, ...curve.release];
  const deepest = points.reduce((most, [x]) => Math.max(most, x), 0.1);
  const first = points.reduce((least, [x]) => Math.min(least, x), 0);
  const { stiffness, totalTravel, prominence } = { ...characteristics, prominence: key.prominence };
  const numbers = [
    totalTravel.absent ? "no bottom-out" : `total ${totalTravel.value.toFixed(3)} mm`,
    stiffness.absent ? "" : `${stiffness.value.toFixed(2)} cN/mm`,
    prominence === undefined || prominence.absent ? "" : `prominence ${prominence.value.toFixed(1)} cN`,
    cycle.flags.map((flag) => flag.code).join(" "),
  ].filter((text) => text !== "");
  return renderPanel({
    document,
    width,
    height,
    xDomain: [first - 0.05, deepest + 0.05],
    xTick: 1,
    xFine: 0.2,
    title: `${name}: ${key.curveKind}`,
    subtitle: numbers.join("; "),
    marks: [
      Plot.line(curve.press, { stroke: "#036", strokeWidth: 1.2 }),
      Plot.line(curve.release, { stroke: "#888", strokeWidth: 1 }),
      Plot.ruleX(marks, { x: "x", stroke: "#c33", strokeWidth: 0.6, strokeDasharray: "2,2" }),
      Plot.dot(marks, { x: "x", y: "y", r: 3, stroke: "#c33", fill: "white" }),
      Plot.text(marks, { x: "x", y: "y", text: "letter", dx: 8, dy: -8, fill: "#c33", fontWeight: "bold" }),
    ],
  });
}

function onePage(svgs: readonly string[]): string {
  const cells = svgs.map((svg) => `<div>${svg}</div>`).join("\n");
  return (
    `<!doctype html><html lang="en"><meta charset="utf-8"><title>Contact sheet</title>` +
    `<style>body{margin:0;display:grid;grid-template-columns:repeat(${columns},${width}px)}</style>\n${cells}\n</html>\n`
  );
}

function oneSvg(svgs: readonly string[]): string {
  const rows = Math.ceil(svgs.length / columns);
  const placed = svgs.map((svg, i) => {
    const x = (i % columns) * width;
    const y = Math.floor(i / columns) * height;
    return svg.replace("<svg", `<svg x="${x}" y="${y}"`);
  });
  const size = `width="${columns * width}" height="${rows * height}"`;
  return `<svg xmlns="http://www.w3.org/2000/svg" ${size}>\n${placed.join("\n")}\n</svg>\n`;
}
