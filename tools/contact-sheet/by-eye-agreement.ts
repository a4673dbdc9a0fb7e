import { readFileSync } from "node:fs";
import type { PressMarks } from "./reduced-marks.js";
import { pressMarks } from "./reduced-marks.js";
import { sheetMethod } from "./sheet-method.js";
import { readStreamFolder } from "./stream-csv.js";
import { streamStrokes } from "./stream-strokes.js";

/**
 * Compares the reduction's marks with marks made by eye, on recorded curves that are not part of this repository:
 *
 *   tsx tools/contact-sheet/by-eye-agreement.ts DIR [tests/keystroke/by-eye/marks.json]
 *
 * A mark agrees within max(0.03 mm, 2 x the marker's repeat sd of that kind of mark) of the mean of the two marks. A mark
 * that only one side has counts as a disagreement. Exits 1 below 90 % or where a difference exceeds 0.15 mm.
 */
interface ByEye {
  readonly marks: Readonly<Record<string, readonly [PressMarks, PressMarks]>>;
}

const kinds = ["touch", "peak", "valley", "bottomOut"] as const;
const leastMm = 0.03;
const worstMm = 0.15;

const [folder, marksFile = "tests/keystroke/by-eye/marks.json"] = process.argv.slice(2);
if (folder === undefined) {
  console.error("use: by-eye-agreement.ts DIR [MARKS.json]");
  process.exit(2);
}
const byEye = JSON.parse(readFileSync(marksFile, "utf8")) as ByEye;
let agreed = 0;
let compared = 0;
let isBeyond = false;
const files = readStreamFolder(folder);
const reduced = new Map(
  files.map((file) => {
    const press = streamStrokes(file)[0]!;
    return [file.name, pressMarks(press, sheetMethod([file.name]))] as const;
  }),
);
for (const kind of kinds) {
  const pairs = Object.values(byEye.marks).map(([a, b]) => [a[kind], b[kind]] as const);
  const repeats = pairs.flatMap(([a, b]) => (a === null || b === null ? [] : [(a - b) ** 2 / 2]));
  const repeatSd = Math.sqrt(repeats.reduce((total, square) => total + square, 0) / Math.max(1, repeats.length));
  const allowed = Math.max(leastMm, 2 * repeatSd);
  const rows = Object.entries(byEye.marks).map(([name, [a, b]]) => {
    const eye = a[kind] === null || b[kind] === null ? null : (a[kind] + b[kind]) / 2;
    const own = reduced.get(name)?.[kind] ?? null;
    return { name, eye, own, off: eye === null || own === null ? null : own - eye };
  });
  const relevant = rows.filter((row) => row.eye !== null || row.own !== null);
  const within = relevant.filter((row) => row.off !== null && Math.abs(row.off) <= allowed);
  compared += relevant.length;
  agreed += within.length;
  const sizes = relevant.map((row) => Math.abs(row.off ?? Infinity)).sort((x, y) => y - x);
  console.log(
    `${kind.padEnd(10)} ${within.length} of ${relevant.length} within ${allowed.toFixed(3)} mm ` +
      `(repeat sd ${repeatSd.toFixed(4)} mm); worst ${sizes.slice(0, 3).map((x) => x.toFixed(3)).join(", ")} mm`, // prettier-ignore
  );
  for (const row of relevant) {
    if (row.off !== null && Math.abs(row.off) <= allowed) continue;
    const show = (value: number | null): string => (value === null ? "none" : value.toFixed(3));
    console.log(`  ${row.name}: by eye ${show(row.eye)}, reduced ${show(row.own)}`);
    if (row.off === null || Math.abs(row.off) > worstMm) isBeyond = true;
  }
}
const share = agreed / compared;
console.log(`all        ${agreed} of ${compared} (${(100 * share).toFixed(1)} %)`);
process.exitCode = share >= 0.9 && !isBeyond ? 0 : 1;
