import { JSDOM } from "jsdom";
import { expect, test } from "vitest";
import { inTemporaryFolder, readPages, runBenchfolio } from "../cli/run-benchfolio.js";
import type { Override } from "../records/make-archive.js";
import { makeArchive, replacing } from "../records/make-archive.js";

const without = (...paths: readonly string[]): Record<string, Override> =>
  Object.fromEntries(paths.map((path) => [path, null]));
const noLimits = (text: string): string => text.replace(/^limits:\n(?: .*\n)+/m, "limits: []\n");

const noLatency = without(
  "methods/latency-1.yaml",
  ...["session.yaml", "presses.csv", "films.csv", "baseline.csv"].map((name) => `units/u01/s2/${name}`),
);
const noForce = without(
  "methods/keystroke-1.yaml",
  "methods/keystroke-2.yaml",
  "units/u01/s1/session.yaml",
  "units/u01/s1/force.csv",
  "studies/crossed-1/study.yaml",
  "studies/crossed-1/readings.csv",
);
const nothingElse = {
  ...without(
    "methods/keystroke-1.yaml",
    "methods/scoring-1.yaml",
    "rigs/camera-1/rig.yaml",
    "rigs/tester-1/checks.csv",
    "studies/crossed-1/study.yaml",
    "studies/crossed-1/readings.csv",
  ),
  "methods/keystroke-2.yaml": replacing("replaces: keystroke@1\n", ""),
  "units/u01/unit.yaml": noLimits,
  "lab.yaml": noLimits,
};

/** Drafts every template that ships and returns the text of each page before its workings. */
async function draftOn(overrides: Readonly<Record<string, Override>>): Promise<Readonly<Record<string, string>>> {
  const { root, remove } = makeArchive(overrides);
  try {
    return await inTemporaryFolder(async (out) => {
      const { code, stdout, stderr } = await runBenchfolio(["draft", "--data", root, "--out", out, "--json"]);
      expect([code, stderr.includes("fault")]).toEqual([0, false]);
      expect((JSON.parse(stdout) as { templateProblems: unknown[] }).templateProblems).toEqual([]);
      const pages = Object.entries(readPages(out)).map(([name, html]) => [name, textOf(html)] as const);
      for (const [name, text] of pages) expect(text, name).not.toMatch(/undefined|NaN|\bnull\b|\[object|\( *\)/);
      return Object.fromEntries(pages);
    });
  } finally {
    remove();
  }
}

function textOf(html: string): string {
  const parts = [...new JSDOM(html).window.document.querySelectorAll("main > .part:not(#workings)")];
  return parts.map((part) => (part.textContent ?? "").replace(/\s+/g, " ")).join(" ");
}

test("an archive without a latency method gets its pages, which say that nothing was measured by one", async () => {
  const pages = await draftOn(noLatency);
  const unit = pages["unit-dossier-u01.html"]!;
  expect(unit).toContain("No result: nothing was measured by a latency method, as the archive describes none.");
  expect(unit).toContain("A key's value is the mean of its used cycles");
  expect(pages["catalogue.html"]).toContain("No latency was measured on any unit.");
  expect(Object.keys(pages)).toHaveLength(8);
});

test("an archive without a keystroke method gets its pages, which say that no force was measured", async () => {
  const pages = await draftOn(noForce);
  const unit = pages["unit-dossier-u01.html"]!;
  const none = "the archive describes no method by which force is measured against displacement";
  expect(unit).toContain(`No force-displacement results: ${none}.`);
  expect(unit).toContain(`undecided: no value to judge: ${none}`);
  expect(unit).toMatch(/L is the mean over all valid presses/);
  expect(pages["variance-study.html"]).toContain("no unit was measured with two keys or more");
  expect(Object.keys(pages)).toHaveLength(7);
});

test("one unit, one session and neither limits, scoring, studies nor checks give six pages without a problem", async () => {
  const pages = await draftOn({ ...noLatency, ...nothingElse });
  expect(Object.keys(pages).sort()).toEqual([
    "catalogue.html",
    "method-validation.html",
    "retest-plan.html",
    "rig-record-tester-1.html",
    "unit-dossier-u01.html",
    "variance-study.html",
  ]);
  expect(pages["unit-dossier-u01.html"]).toContain("No data sheet and no ergonomic limit is recorded for this unit");
});

test("an archive without any method gets its pages too", async () => {
  const pages = await draftOn({ ...noForce, ...noLatency, ...nothingElse, "methods/keystroke-2.yaml": null });
  expect(pages["unit-dossier-u01.html"]).toContain("No session of this unit is recorded.");
});
