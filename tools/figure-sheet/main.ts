import { writeFileSync } from "node:fs";
import { drawChart } from "../../src/figures/draw.js";
import { figureStyles } from "../../src/figures/figure-styles.js";
import { samples } from "./samples.js";

/**
 * Writes the sheet of all figures as one HTML page, to look at.
 * Use: npx tsx tools/figure-sheet/main.ts OUT.html [--width PX] [--only ID]
 */
const [out, ...rest] = process.argv.slice(2);
if (out === undefined) throw new Error("usage: figure-sheet OUT.html [--width PX] [--only ID]");
const option = (name: string): string | undefined => {
  const at = rest.indexOf(name);
  return at < 0 ? undefined : rest[at + 1];
};
const width = option("--width");
const only = option("--only");

const escape = (text: string): string => text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;");
const figures = samples()
  .filter(({ id }) => only === undefined || only.split(",").some((start) => id.startsWith(start)))
  .map(({ id, question, chart }) => {
    const { svg, description } = drawChart(chart, id, {
      title: question,
      ...(width === undefined ? {} : { widthPx: Number(width) }),
    });
    return `<figure><h2>${escape(question)}</h2>${svg}<figcaption>${escape(chart.finding)}</figcaption></figure><!-- ${description.length} -->`;
  });

writeFileSync(
  out,
  `<!doctype html><html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'nonce-sheet'"><title>Sheet of figures</title>
<style nonce="sheet">${figureStyles()}
:root { color-scheme: light dark; }
body { margin: 16px; background: var(--figure-paper); color: var(--figure-ink); font: 15px/1.4 Helvetica, Arial, "Liberation Sans", sans-serif; }
main { display: flex; flex-wrap: wrap; gap: 28px 40px; }
figure { margin: 0; width: 100%; max-width: ${width === undefined ? 540 : Number(width)}px; break-inside: avoid; }
h2 { font-size: 16px; margin: 0 0 8px; } figcaption { color: var(--figure-quiet); margin-top: 6px; }
</style><main>${figures.join("\n")}</main></html>\n`,
);
