import * as Plot from "@observablehq/plot";
import { JSDOM } from "jsdom";
import { expect, test } from "vitest";
import { renderDossier } from "../../src/dossier/index.js";
import { chart } from "../../src/figures/chart.js";
import { drawChart } from "../../src/figures/draw.js";
import { figureStyles } from "../../src/figures/figure-styles.js";
import type { TemplateProblem } from "../../src/templates/outcome.js";
import { parseTemplate } from "../../src/templates/parse/parse-template.js";
import { fixtureInput, fixtureRun, fixtureSource } from "./fixture.js";

test("the tokens of the template floor give the same page as those of the fixture", () => {
  const { tokens, cells, inlines, problems } = parseTemplate(fixtureSource, "templates/unit-dossier.md");
  expect(problems).toEqual([]);
  const run = fixtureRun();
  const real = {
    ...run,
    tokens,
    cells: run.cells.map((outcome, index) => ({ ...outcome, cell: cells[index]! })),
    inlines: run.inlines.map((outcome, index) => ({ ...outcome, inline: inlines[index]! })),
  };
  expect(renderDossier(fixtureInput({ run: real }))).toBe(renderDossier(fixtureInput()));
});

test("what the template floor took out of a template is not reported twice", () => {
  const front = "---\nsubject: unit\nmethods: [keystroke@2]\n---\n";
  const { tokens, problems } = parseTemplate(`${front}[x](javascript:y) ![i](i.png)\n`, "t.md");
  expect(problems).toHaveLength(2);
  const told: TemplateProblem[] = [];
  const run = { ...fixtureRun(), tokens, cells: [], inlines: [] };
  const page = renderDossier(fixtureInput({ run, onProblem: (problem) => told.push(problem) }));
  expect(told).toEqual([]);
  expect(new JSDOM(page).window.document.querySelector(".prose")!.textContent!.trim()).toBe("x [image: i]");
});

test("drawings of the figures floor stand in the page as they are", () => {
  const told: TemplateProblem[] = [];
  const run = fixtureRun();
  const data = { columns: [{ name: "a", label: "A <b>" }], rows: [[1], [2]] };
  const drawn = chart(
    { marks: [Plot.dot([[1, 2]])], x: { label: `"><script>`, symbol: "mm" }, y: { label: "Force", symbol: "cN" } },
    { finding: "One point & no more.", data },
  );
  const cells = run.cells.map((outcome) =>
    outcome.cell.role === "figure" ? ({ cell: outcome.cell, status: "done", result: drawn } as const) : outcome,
  );
  const page = renderDossier(
    fixtureInput({
      run: { ...run, cells },
      draw: drawChart,
      figureStyles: figureStyles(),
      onProblem: (problem) => told.push(problem),
    }),
  );
  expect(told).toEqual([]);
  const { document } = new JSDOM(page).window;
  const drawings = [...document.querySelectorAll("figure svg.figure-drawing")];
  expect(drawings).toHaveLength(3);
  expect(document.querySelectorAll("[style], script")).toHaveLength(0);
  const ids = [...document.querySelectorAll("[id]")].map((element) => element.id);
  expect(new Set(ids).size).toBe(ids.length);
  for (const drawing of drawings) {
    const named = drawing.getAttribute("aria-labelledby")!.split(" ");
    expect(named.every((id) => drawing.querySelector(`[id="${id}"]`) !== null)).toBe(true);
  }
});
