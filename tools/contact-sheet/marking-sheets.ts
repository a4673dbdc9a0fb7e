import * as Plot from "@observablehq/plot";
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { uniformInt } from "pure-rand/distribution/uniformInt";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";
import type { RandomGenerator } from "pure-rand/types/RandomGenerator";
import { drawingDocument, renderPanel } from "./drawing.js";
import type { StreamFile } from "./stream-csv.js";
import { readStreamFolder } from "./stream-csv.js";

/**
 * Draws sheets for marking by eye: press strokes without any mark and without the curve's name, in a seeded order, each
 * enlarged window shifted at random, so that neither a mark's place in the panel nor the order gives anything away.
 * Writes `sheet-NN.html` and `order.json` (which sheet is which curve; to be opened after the marking).
 *
 *   tsx tools/contact-sheet/marking-sheets.ts DIR --windows FILE.json --seed N --out DIR
 *
 * The windows file gives, for each curve and mark, roughly where to enlarge: { "curve-01": { "touch": 0.1, ... } }.
 */
interface Window {
  readonly widthMm: number;
  readonly tickMm: number;
  readonly fineMm: number;
  readonly label: string;
}

const windows: Readonly<Record<string, Window>> = {
  touch: { widthMm: 0.4, tickMm: 0.05, fineMm: 0.01, label: "start" },
  peak: { widthMm: 0.8, tickMm: 0.1, fineMm: 0.02, label: "first enlargement" },
  valley: { widthMm: 0.8, tickMm: 0.1, fineMm: 0.02, label: "second enlargement" },
  bottomOut: { widthMm: 0.4, tickMm: 0.05, fineMm: 0.01, label: "end" },
};

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: { windows: { type: "string" }, seed: { type: "string" }, out: { type: "string" } },
});
const [folder] = positionals;
if (folder === undefined || !values.windows || !values.seed || !values.out) {
  throw new Error("use: marking-sheets.ts DIR --windows FILE.json --seed N --out DIR");
}
const centres = JSON.parse(readFileSync(values.windows, "utf8")) as Record<string, Record<string, number>>;
const random = xoroshiro128plus(Number(values.seed));
const order = shuffle(readStreamFolder(folder), random);
const document = drawingDocument();
mkdirSync(values.out, { recursive: true });
order.forEach((file, index) => {
  const sheet = String(index + 1).padStart(2, "0");
  writeFileSync(join(values.out!, `sheet-${sheet}.html`), renderSheet(file, `sheet ${sheet}`));
});
writeFileSync(join(values.out, "order.json"), JSON.stringify(order.map((file) => file.name)));

function renderSheet(file: StreamFile, title: string): string {
  const deepest = file.displacementMm.reduce((best, x, i) => (x > file.displacementMm[best]! ? i : best), 0);
  const press = Array.from(file.displacementMm.subarray(0, deepest + 1), (x, i) => [x, file.forceCn[i]!] as const);
  const line = Plot.line(press, { stroke: "#036", strokeWidth: 1 });
  const whole = renderPanel({
    document,
    width: 1000,
    height: 240,
    xDomain: [press[0]![0] - 0.05, press.at(-1)![0] + 0.02],
    xTick: 0.2,
    xFine: 0.1,
    title,
    marks: [line],
  });
  const enlarged = Object.entries(windows).map(([mark, window]) => {
    const centre = centres[file.name]?.[mark];
    if (centre === undefined) return "";
    const from = centre - window.widthMm * (0.3 + 0.4 * unit(random));
    const xDomain = [from, from + window.widthMm] as const;
    const inside = press.filter(([x]) => x >= xDomain[0] && x <= xDomain[1]).map(([, f]) => f);
    const low = Math.min(...inside);
    const yDomain: readonly [number, number] =
      mark === "touch" ? [-2, 25] : mark === "bottomOut" ? [low - 5, low + 60] : [low - 1, Math.max(...inside) + 1];
    const steep: readonly Plot.Markish[] =
      mark === "bottomOut"
        ? [
            Plot.line([[xDomain[0] + 0.02, low + 15], [xDomain[0] + 0.12, low + 45]], { stroke: "#c50", strokeWidth: 1 }), // prettier-ignore
            Plot.text([[xDomain[0] + 0.12, low + 47]], { text: () => "300 cN/mm" }),
          ]
        : [];
    return renderPanel({
      document,
      width: 1000,
      height: 240,
      xDomain,
      yDomain,
      xTick: window.tickMm,
      xFine: window.fineMm,
      title: `${title}, ${window.label}`,
      marks: [line, Plot.dot(press, { r: 1.3, fill: "#036" }), ...steep],
    });
  });
  return `<!doctype html><meta charset="utf-8"><body style="margin:0">${[whole, ...enlarged].map((svg) => `<div>${svg}</div>`).join("")}</body>`;
}

function unit(generator: RandomGenerator): number {
  return uniformInt(generator, 0, 999_999) / 1_000_000;
}

function shuffle<T>(items: readonly T[], generator: RandomGenerator): readonly T[] {
  const shuffled = [...items];
  for (let i = shuffled.length - 1; i > 0; i--) {
    const j = uniformInt(generator, 0, i);
    [shuffled[i], shuffled[j]] = [shuffled[j]!, shuffled[i]!];
  }
  return shuffled;
}
