import { drawChart } from "../../src/figures/draw.js";
import { figureStyles } from "../../src/figures/figure-styles.js";
import { samples } from "./samples.js";

export interface SheetOptions {
  /** Width of each drawing in its own px; the figures' own default unless given. */
  readonly widthPx?: number;
  /** Beginnings of the ids to show; all unless given. */
  readonly only?: readonly string[];
}

/** The sheet of all figures as one HTML page under the policy of a dossier: no script, no request, one style sheet. */
export function renderSheet(options: SheetOptions = {}): string {
  const { widthPx, only } = options;
  const figures = samples()
    .filter(({ id }) => only === undefined || only.some((start) => id.startsWith(start)))
    .map(({ id, question, chart }) => {
      const { svg } = drawChart(chart, id, { title: question, ...(widthPx === undefined ? {} : { widthPx }) });
      return `<figure><h2>${escapeText(question)}</h2>${svg}<figcaption>${escapeText(chart.finding)}</figcaption></figure>`;
    });
  return `<!doctype html>
<html lang="en">
<meta charset="utf-8">
<meta name="viewport" content="width=device-width">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'nonce-sheet'">
<title>Sheet of figures</title>
<style nonce="sheet">
${figureStyles()}
:root { color-scheme: light dark; }
body { margin: 16px; background: var(--figure-paper); color: var(--figure-ink);
  font: 15px/1.4 "Helvetica Neue", Helvetica, Arial, "Liberation Sans", sans-serif; }
main { display: flex; flex-wrap: wrap; gap: 28px 40px; }
figure { margin: 0; width: 100%; max-width: ${widthPx ?? 540}px; break-inside: avoid; }
h2 { font-size: 16px; margin: 0 0 8px; }
figcaption { color: var(--figure-quiet); margin-top: 6px; }
</style>
<main>
${figures.join("\n")}
</main>
</html>
`;
}

function escapeText(text: string): string {
  return text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;");
}
