import { expect, test } from "vitest";
import { drawChart } from "../../../src/figures/draw.js";
import { intervalChart } from "../../../src/figures/kinds/interval-chart.js";
import { Quantity, evidenceStep } from "../../../src/metrology/index.js";

const at = (value: number): { readonly value: number; readonly symbol: string } => ({ value, symbol: "cN" });
const items = [-1, 0.5, 2].map((value, index) => ({
  label: `u0${index + 1}`,
  value: new Quantity(value, "cN", [], evidenceStep("difference", [])),
}));
const drawn = (min: number, max: number): { readonly texts: readonly string[]; readonly said: string } => {
  const chart = intervalChart(items, (item) => item.value, { limits: { min: at(min), max: at(max) }, noun: "unit" });
  const { svg } = drawChart(chart, "f", { title: "T" });
  const texts = [...svg.matchAll(/<text[^>]*>([^<]*)</g)].map((match) => match[1]!.replaceAll("\u00a0", " "));
  return { texts, said: `${chart.finding} ${chart.note ?? ""}`.replaceAll("\u00a0", " ") };
};

test("limits equally far on both sides of zero are drawn as two lines with one label, ± and the number", () => {
  const { texts, said } = drawn(-3, 3);
  expect(texts.filter((text) => /^(± 3|min|max)/.test(text))).toEqual(["± 3"]);
  expect(said).toContain("inside ± 3 cN");
  expect(said).toContain("Dashed: ± 3 cN.");
  expect(said).not.toContain("−3 cN to 3 cN");
});

test("limits that are not stand apart with their own words", () => {
  const { texts, said } = drawn(-3, 2.5);
  expect(texts.filter((text) => /^(±|min|max)/.test(text))).toEqual(["min −3", "max 2.5"]);
  expect(said).toContain("inside −3 cN to 2.5 cN");
});
