import { expect, test } from "vitest";
import type { Result } from "../../src/figures/result.js";
import type { Evidence } from "../../src/metrology/index.js";
import { Count, evidenceStep } from "../../src/metrology/index.js";
import type { Chart } from "../../src/figures/chart.js";
import { table } from "../../src/figures/table.js";
import type { Table } from "../../src/figures/table.js";
import { JSDOM } from "jsdom";
import { renderDossier } from "../../src/dossier/index.js";
import { fixtureInput, fixtureRun } from "./fixture.js";
import { words } from "./table-page.js";

const chart = (empty?: string, values: readonly number[] = [1, 2]): Chart => ({
  kind: "chart",
  marks: [],
  x: { label: "X" },
  y: { label: "Y" },
  ...(empty === undefined ? {} : { empty }),
  finding: "F.",
  data: { columns: [{ name: "a", label: "A" }], rows: values.map((value) => [value]) },
});
const rows = (finding: string, count = 0): Table =>
  table(
    [{ key: "a", label: "A" }],
    Array.from({ length: count }, () => ({ a: "x" })),
    { finding },
  );

/** A page whose cells, in order, hold these; a text between them is a paragraph. */
function pageOf(parts: readonly (Chart | Table | string)[]): Document {
  const source = parts.map((part, index) =>
    typeof part === "string"
      ? part
      : `\`\`\`ts ${part.kind === "chart" ? "figure" : "table"} c${index}: Caption ${index}\n1\n\`\`\``,
  );
  const run = fixtureRun(`# T\n\n## One\n\n${source.join("\n\n")}\n`);
  const results = parts.filter((part) => typeof part !== "string");
  const cells = run.cells.map(({ cell }, index) => ({ cell, status: "done", result: results[index]! }) as const);
  return new JSDOM(renderDossier(fixtureInput({ run: { ...run, cells, inlines: [] } }))).window.document;
}

test("a chart with nothing to draw and a table without rows keep name and place, and say why", () => {
  const page = pageOf([chart("No latency was measured."), rows("No key was measured.")]);
  expect(words(page.querySelector("#r-c0"))).toBe("Figure 1.1 Caption 0 W1 No latency was measured.");
  expect(words(page.querySelector("#r-c1"))).toBe("Table 1.1 Caption 1 W2 No key was measured.");
  expect(page.querySelectorAll("figure, .plate table, .to-values, .plotted")).toHaveLength(0);
});

test("a chart whose data hold no row says that there is nothing to draw, and draws no axes", () => {
  const page = pageOf([chart(undefined, []), chart()]);
  expect(words(page.querySelector("#r-c0"))).toBe("Figure 1.1 Caption 0 W1 There is nothing to draw. F.");
  expect(page.querySelectorAll("figure")).toHaveLength(1);
  expect(words(page.querySelector("#plotted-values"))).not.toMatch(/of 0 rows|0th/);
});

test("what lacks its content for the reason just said says likewise, and no other does", () => {
  const page = pageOf([chart("None."), rows("None."), rows("Full.", 1), rows("None."), rows("Other.")]);
  expect([...page.querySelectorAll(".plate")].map((plate) => plate.classList.contains("likewise"))).toEqual([
    false,
    true,
    false,
    false,
    false,
  ]);
  expect(words(page.querySelector("#r-c1"))).toBe("Table 1.1 Caption 1 W2 likewise");
});

test("a result that is a count without evidence bears the mark of its workings once, one with a ground both marks", () => {
  const run = fixtureRun("# T\n\n## One\n\n[= a =] and [= b =]\n");
  const counted = (evidence: Evidence): Result => ({ kind: "result", label: "Count", value: new Count(3, evidence) });
  const raw: Evidence = { kind: "rows", file: "lab.yaml", firstLine: 1, lastLine: 1, columns: [] };
  const results = [counted(evidenceStep("counted", [])), counted(raw)];
  const inlines = run.inlines.map(
    ({ inline }, index) => ({ inline, status: "done", result: results[index]!, workCells: [0] }) as const,
  );
  const input = fixtureInput({ run: { ...run, inlines } });
  const page = new JSDOM(renderDossier(input)).window.document;
  expect([...page.querySelectorAll(".result")].map(words)).toEqual(["3 W1", "3 a W1"]);
});

test("a paragraph whose values print nothing is not there", () => {
  const source = "# T\n\n## One\n\n[= a =] [= b =]\n\nWords [= c =]\n";
  const run = fixtureRun(source);
  const inlines = run.inlines.map(({ inline }) => ({ inline, status: "done", result: "", workCells: [] }) as const);
  const page = new JSDOM(renderDossier(fixtureInput({ run: { ...run, inlines } }))).window.document;
  expect([...page.querySelectorAll("#s1 .prose p")].map(words)).toEqual(["Words"]);
});

test("a phrase sets its parts one after another, each with its mark, and a result in it enters the schedule", () => {
  const fixture = fixtureRun();
  const known = fixture.inlines.flatMap((outcome) => (outcome.status === "done" ? [outcome.result] : []));
  const force = known.find((value) => typeof value === "object" && "kind" in value && value.kind === "result");
  if (typeof force !== "object" || !("kind" in force) || force.kind !== "result") throw new Error("no result");
  const run = fixtureRun("# T\n\n## One\n\nHere: [= a =]\n");
  const result = { kind: "phrase", parts: ["it needs ", { ...force, label: "Named" }, ", no more."] } as const;
  const inlines = run.inlines.map(({ inline }) => ({ inline, status: "done", result, workCells: [0] }) as const);
  const page = new JSDOM(renderDossier(fixtureInput({ run: { ...run, inlines } }))).window.document;
  expect(words(page.querySelector("#s1 .prose p"))).toMatch(/^Here: it needs \([\d.]+ ± [\d.]+\) cN a W1, no more\.$/);
  const link = [...page.querySelectorAll<HTMLAnchorElement>(".schedule a")].find((each) => words(each) === "Named")!;
  expect(page.querySelector(link.hash)!.closest("p")).toBe(page.querySelector("#s1 .prose p"));
});

test("the items of a test report stand in an annex with their place, or as not recorded", () => {
  const reportItems = [
    { clause: "7.8.2.1 a", item: "Title", text: "heads the title block", place: "title_block" },
    { clause: "7.8.2.1 p", item: "Outside providers", text: null, place: null },
  ] as const;
  const page = new JSDOM(renderDossier(fixtureInput({ reportItems }))).window.document;
  const annex = page.querySelector("#report-items")!;
  expect([...annex.querySelectorAll("tbody tr")].map(words)).toEqual([
    "7.8.2.1 a Title heads the title block Title block",
    "7.8.2.1 p Outside providers not recorded –",
  ]);
  expect(words(annex)).toContain("1 of 2 are not recorded");
  const links = [...annex.querySelectorAll<HTMLAnchorElement>("a")];
  expect(links.map(({ hash }) => page.querySelector(hash)!.className)).toEqual(["title-block"]);
  expect(new JSDOM(renderDossier(fixtureInput())).window.document.querySelector("#report-items")).toBeNull();
});
