import { JSDOM } from "jsdom";
import { beforeAll, expect, test } from "vitest";
import { inTemporaryFolder, readPages, runBenchfolio } from "../cli/run-benchfolio.js";

const units = ["u01", "u05", "u06", "u08", "u09", "u10", "u11", "u15", "u18"];
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

test("a session after its rig's calibration was due says so, and whether the next certificate agrees", () => {
  expect(text("u15", "#s1 .prose > p")).toContain(
    "Session s2 was measured on 2026-04-02, 2 days after calibration C-25-041 of tester-2 was due (2026-03-31). " +
      "C-26-044 of 2026-04-07 is not shown to differ from it in any term.",
  );
  expect(text("u15", ".schedule")).toContain("Every session lies within a calibration of its rig not met");
  expect(text("u01", ".schedule")).toContain("Every session lies within a calibration of its rig met");
});

test("results that a rig's shift touches are in doubt in the schedule, with effect, consequence and the way to the rig's record", () => {
  expect(text("u18", ".schedule")).toMatch(/Operating force, in doubt \(/);
  expect(text("u18", ".schedule")).not.toMatch(/Pre-travel, in doubt/);
  expect(text("u18", "#s1 .prose > p")).toMatch(
    /In doubt: the span of the force of tester-2 read too high by \([\d.]+ ± [\d.]+\) % \w+ from some day after 2026-04-20/,
  );
  expect(text("u18", "#r-doubts tbody tr:nth-child(2)")).toMatch(/^Operating force .* re-issue \(−/);
  expect(text("u18", "#r-doubts .finding")).toContain("half of its effect is taken off");
  expect(pages.get("u18")!.querySelector('#s1 a[href="rig-record-tester-2.html"]')).not.toBeNull();
  expect(text("u01", ".schedule")).not.toContain("in doubt");
});

test("a limit that binds each key names the keys that break it and gives the mean no verdict", () => {
  expect(text("u05", "#s6 .prose > p")).toContain("KeyE does not conform; 7 of 8 measured keys conform.");
  expect(text("u05", ".schedule")).toMatch(/Actuation force: of 8 keys, conform to \S.* 7 does not conform/);
  expect(text("u05", "#r-means thead")).not.toContain("Limits");
});

test("each ± is said to hold one mounting and one operator, and the verdicts too", () => {
  for (const unit of units) {
    expect(text(unit, "#s1 .prose > p"), unit).toContain("each ± holds one mounting and one operator");
    expect(text(unit, "#s6 .prose > p"), unit).toContain("That uncertainty holds one mounting and one operator.");
  }
});

test("the spread between keys stands with its interval and without ±", () => {
  expect(text("u05", "#r-spreads tbody tr:nth-child(2)")).toMatch(/^Actuation force \d\.\d cN \w+ \d\.\d to \d\.\d /);
});

test("the range of the keys is given by the extreme keys' own quantities", () => {
  const range = /range of the measured keys, \(([\d.]+ ± [\d.]+)\) cN \w+ to \(([\d.]+ ± [\d.]+)\) cN/;
  for (const unit of units) {
    const [, low, high] = range.exec(text(unit, "#s4 .prose > p"))!;
    for (const end of [low!, high!]) expect(text(unit, "#r-keys tbody"), unit).toContain(end);
  }
});

test("a prediction that rests on normal keys says where a key speaks against that", () => {
  expect(text("u10", "#s4 .prose > p")).toMatch(
    /KeyP speaks against that\. For information, without it: from about \d+ cN \w+ to \d+ cN/,
  );
  expect(text("u05", "#s4 .prose > p")).not.toContain("speaks against that");
});

test("the key that was pressed is named, and sessions that the page leaves out are listed", () => {
  expect(text("u05", "#s7 .prose > p")).toContain("Pressed: KeyF.");
  expect(text("u01", "#s1 .prose > p")).toMatch(/Not on this page: .*\(injection@1\)/);
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
