import { JSDOM } from "jsdom";
import { beforeAll, expect, test } from "vitest";
import { inTemporaryFolder, readPages, runBenchfolio } from "../cli/run-benchfolio.js";

const units = ["u01", "u06", "u08", "u09", "u10", "u11", "u15", "u18"];
const pages = new Map<string, Document>();

beforeAll(async () => {
  await inTemporaryFolder(async (out) => {
    const wanted = units.flatMap((unit) => ["--unit", unit]);
    const { stdout } = await runBenchfolio(["draft", "--out", out, "--json", ...wanted]);
    expect((JSON.parse(stdout) as { templateProblems: unknown[] }).templateProblems).toEqual([]);
    for (const [name, html] of Object.entries(readPages(out)))
      pages.set(name.slice(-8, -5), new JSDOM(html).window.document);
  });
});

function text(unit: string, selector: string): string {
  const textOf = (element: Element): string =>
    element.matches("tr") ? [...element.children].map((cell) => cell.textContent).join(" ") : element.textContent;
  const found = [...pages.get(unit)!.querySelectorAll(selector)].map(textOf).join(" ");
  return found.replaceAll("\u00a0", " ").replace(/\s+/g, " ").trim();
}

test("the key that is harder than its neighbours is named, with the mean without it and the median for information", () => {
  expect(text("u10", "#s4 .prose > p")).toMatch(
    /KeyP stands out by its actuation force\. Nothing was taken out of any mean\. For information: without KeyP the mean actuation force is \([\d.]+ ± [\d.]+\) cN \w+, and the median of all measured keys is \([\d.]+ ± [\d.]+\) cN/,
  );
  for (const unit of ["u01", "u06", "u08", "u15", "u18"])
    expect(text(unit, "#s4 .prose > p")).not.toContain("stands out by");
});

test("a cycle that was taken out by hand stays in the table with its reason, and among the deviations", () => {
  expect(text("u08", "#r-cycles tbody tr:nth-child(7)")).toMatch(/^KeyT .* cycle 2: excluded by hand: /);
  expect(text("u08", "#deviations")).toMatch(
    /session s2 \(keystroke@2\), KeyT, cycle 2: Excluded by hand: .* units\/u08\/s2\/session\.yaml, line \d+/,
  );
});

test("presses that were missed, doubled or taken out are counted beside the result and listed", () => {
  expect(text("u06", "#r-latency tbody tr:nth-child(2)")).toMatch(/^receiver .* 1 missed$/);
  expect(text("u15", "#r-latency tbody tr:nth-child(1)")).toMatch(/^usb .* 1 double$/);
  expect(text("u01", "#r-latency tbody tr:nth-child(1)")).toMatch(/^usb .* 1 excluded$/);
  expect(text("u01", "#r-press-list tbody tr:nth-child(5)")).toMatch(/^usb 5 .*excluded \S/);
});

test("a unit whose curves are of another kind than its description says so at its head", () => {
  expect(text("u18", "#s1 .prose > p")).toContain(
    "The unit is described as linear, but every measured key has a tactile curve.",
  );
  expect(text("u18", "#s8 .prose > p")).toContain("the unit is described as linear, but the force curve is tactile");
});

test("a contact that was learnt from the keyboard's report is said to be so", () => {
  expect(text("u11", "#s1 .prose > p")).toContain("read from the keyboard's own report, which comes late");
});

test("what a linear curve does not define is named with the reason, and has no column", () => {
  expect(text("u01", "#s2 .prose > p")).toMatch(
    /Not defined by these curves: operating force, because the press has no local peak/,
  );
  expect(text("u01", "#r-keys thead")).not.toContain("Operating force");
  expect(text("u10", "#r-keys thead")).toContain("Operating force");
  expect(text("u01", ".schedule")).not.toContain("not available");
});

test("each connection has its results, its budget, its quantiles, its locks and what was subtracted", () => {
  const names = ["usb", "receiver", "bluetooth"];
  for (const id of ["latency", "quantiles", "terms", "settings"]) {
    const rows = [...pages.get("u10")!.querySelectorAll(`#r-${id} tbody tr`)].map(
      (row) => row.firstElementChild!.textContent,
    );
    expect(rows, id).toEqual(names);
  }
  for (const name of names) {
    expect(text("u10", ".schedule")).toContain(`Latency L, ${name} (`);
    expect(text("u10", "#r-budget svg")).toContain(name);
    expect(text("u10", "#r-locks")).toContain(name);
    expect(text("u10", "#r-readers")).toContain(name);
  }
  expect(text("u10", "#r-baseline .finding")).toMatch(/^The blocks (?:do not )?differ beyond noise \(p [=<>] /);
  expect(pages.get("u10")!.querySelectorAll("#r-contents tbody tr")).toHaveLength(7);
});

test("every number of the sections but plain counts of a table carries a mark, and nothing that is empty is printed", () => {
  for (const [unit, page] of pages) {
    const numbers = [...page.querySelectorAll(".part:not(.annex) .prose .number")];
    expect(numbers.length, unit).toBeGreaterThan(50);
    const bare = numbers
      .filter((number) => !number.nextElementSibling?.matches(".mark, .working-mark"))
      .filter((number) => number.closest("td") === null || !/^\d+$/.test(number.textContent));
    expect(
      bare.map((number) => number.textContent),
      unit,
    ).toEqual([]);
    expect(text(unit, "main > .part:not(#workings)"), unit).not.toMatch(/undefined|NaN|\bnull\b|\[object|\( *\)|;\s*;/);
  }
});
