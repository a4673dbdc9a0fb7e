import { existsSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { expect, test } from "vitest";
import { drawChart } from "../../src/figures/draw.js";
import { figureStyles } from "../../src/figures/figure-styles.js";
import { samples } from "../../tools/figure-sheet/samples.js";

const folder = new URL("../golden/figures/", import.meta.url);

const drawings = samples().map((sample) => ({
  ...sample,
  drawing: drawChart(sample.chart, sample.id, { title: sample.question }),
}));

/**
 * Golden drawings, each looked at on the sheet of figures (npx tsx tools/figure-sheet/main.ts OUT.html) in light, dark, grey
 * and at 375 px. On failure the new drawing is written beside as `-changed.svg`: look at it, then rename it.
 */
test.each(drawings)("the drawing of $id is the one that was looked at", ({ id, drawing }) => {
  const golden = new URL(`${id}.svg`, folder);
  const changed = new URL(`${id}-changed.svg`, folder);
  const text = `${drawing.svg.replaceAll("><", ">\n<")}\n`;
  const isSame = existsSync(golden) && readFileSync(golden, "utf8") === text;
  if (isSame) rmSync(changed, { force: true });
  else writeFileSync(changed, text);
  expect(isSame, `${id}.svg differs; look at ${id}-changed.svg`).toBe(true);
});

test.each(drawings)("$id holds no style, foreign class, script, event, link or address", ({ drawing: { svg } }) => {
  expect(svg).not.toMatch(/<style|\sstyle=|<script|\son[a-z]+=|<foreignObject|<image|<a[\s>]|(?:href|src)=/);
  expect([...svg.matchAll(/class="([^"]*)"/g)].map((match) => match[1])).toEqual(["figure-drawing"]);
});

test.each(drawings)("$id has no coordinate finer than 0.01 px, and none that is no number", ({ drawing: { svg } }) => {
  const values = [...svg.matchAll(/ (?:d|transform|points|x|y|x1|x2|y1|y2|cx|cy|r|width|height)="([^"]*)"/g)].map(
    (match) => match[1]!,
  );
  expect(values.length).toBeGreaterThan(10);
  for (const value of values) expect(value).not.toMatch(/\.\d{3}|NaN|Infinity|undefined|null/);
});

test.each(drawings)("$id names the unit of measure of every axis and of its values", ({ chart, drawing: { svg } }) => {
  for (const { symbol, label, hidden } of [chart.x, chart.y]) {
    expect(label).not.toBe("");
    if (symbol !== undefined && symbol !== "1" && !hidden) expect(svg).toContain(`${label} (${symbol})</text>`);
  }
  const symbols = new Set(
    chart.data.columns.flatMap(({ symbol }) => (symbol === undefined || symbol === "1" ? [] : [symbol])),
  );
  for (const symbol of symbols) expect(svg, symbol).toMatch(new RegExp(`\\(${symbol}\\)|\u00a0${symbol}`));
});

test.each(drawings)("$id has a title, and a description that states its finding", ({ question, chart, drawing }) => {
  expect(drawing.title).toBe(question);
  expect(drawing.description).toContain(chart.finding);
  expect(chart.finding).toMatch(/^\S.*[^.]\.$/s);
  expect(chart.finding).not.toMatch(/undefined|NaN|null|\[object/);
});

test.each(drawings)("$id gives what was drawn as a table and as CSV with the same rows", ({ chart, drawing }) => {
  expect(drawing.table.rows.length).toBeGreaterThan(1);
  expect(drawing.csv.split("\r\n").length - 2).toBe(chart.data.rows.length);
});

test("drawings name no colour of their own, and the style sheet gives each in light, dark and forced colours", () => {
  const used = new Set<string>();
  for (const { id, drawing } of drawings) {
    for (const [, value] of drawing.svg.matchAll(/ (?:fill|stroke)="([^"]*)"/g)) {
      expect(value, id).toMatch(/^(none|currentColor|var\(--figure-[\w-]+\))$/);
      const name = /--[\w-]+/.exec(value!)?.[0];
      if (name !== undefined) used.add(name);
    }
  }
  expect(used.size).toBeGreaterThan(8);
  for (const name of used) expect(figureStyles().split(`${name}:`).length - 1, name).toBe(3);
});

test("every figure of the public module is on the sheet", async () => {
  const figures = Object.keys(await import("../../src/figures/index.js")).filter(
    (name) => !["chart", "chartData", "link", "table"].includes(name),
  );
  const sheet = ["samples.ts", "sample-comparison.ts"]
    .map((file) => readFileSync(new URL(`../../tools/figure-sheet/${file}`, import.meta.url), "utf8"))
    .join("\n");
  // The empirical distribution is drawn by the latency distribution.
  for (const name of figures.filter((figure) => figure !== "empiricalDistribution"))
    expect(sheet).toContain(`chart: ${name}(`);
});
