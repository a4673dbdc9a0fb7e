import { readFileSync } from "node:fs";
import { join } from "node:path";
import { JSDOM } from "jsdom";
import { expect, test } from "vitest";
import { inTemporaryFolder, readPages, repository, runBenchfolio } from "../cli/run-benchfolio.js";
import type { Override } from "../records/make-archive.js";
import { forceTable, makeArchive, replacing } from "../records/make-archive.js";

const without = (...paths: readonly string[]): Record<string, Override> =>
  Object.fromEntries(paths.map((path) => [path, null]));
const noLimits = (text: string): string => text.replace(/^limits:\n(?: .*\n)+/m, "limits: []\n");
const noFilm = without(
  ...["session.yaml", "presses.csv", "films.csv", "baseline.csv"].map((name) => `units/u01/s2/${name}`),
);
const noForce = without("units/u01/s1/session.yaml", "units/u01/s1/force.csv");
const noData = {
  ...without("studies/crossed-1/study.yaml", "studies/crossed-1/readings.csv", "rigs/tester-1/checks.csv"),
  "units/u01/unit.yaml": noLimits,
  "lab.yaml": noLimits,
};
const oneKey = {
  "units/u01/s1/force.csv": forceTable(["KeyF"], [1, 2]),
  "units/u01/s1/session.yaml": replacing(
    "exclusions: [{ key: KeyA, cycle: 2, reason: The probe slipped }]",
    "exclusions: []",
  ),
};

/** Drafts catalogue and unit dossier of an archive and holds the pages to what every page must hold. */
async function draftOn(
  overrides: Readonly<Record<string, Override>>,
): Promise<{ unit: Document; catalogue: Document }> {
  const { root, remove } = makeArchive(overrides);
  try {
    return await inTemporaryFolder(async (out) => {
      const templates = ["catalogue", "unit-dossier"].flatMap((name) => ["--template", templatePath(name)]);
      const { code, stdout, stderr } = await runBenchfolio([
        "draft",
        "--data",
        root,
        "--out",
        out,
        "--json",
        ...templates,
      ]);
      expect([code, stderr.includes("fault")]).toEqual([0, false]);
      expect((JSON.parse(stdout) as { templateProblems: unknown[] }).templateProblems).toEqual([]);
      const pages = readPages(out);
      const unit = new JSDOM(pages["unit-dossier-u01.html"]).window.document;
      const catalogue = new JSDOM(pages["catalogue.html"]).window.document;
      checkPage(unit, "unit-dossier");
      checkPage(catalogue, "catalogue");
      return { unit, catalogue };
    });
  } finally {
    remove();
  }
}

function templatePath(name: string): string {
  return join(repository, `templates/${name}.md`);
}

/** Every figure, table and criterion stands in its place: with content, or with the reason why it has none. */
function checkPage(page: Document, template: string): void {
  const source = readFileSync(templatePath(template), "utf8");
  const cells = [...source.matchAll(/^```ts (figure|table|criterion) ([\w-]+):/gm)];
  expect(cells.length).toBeGreaterThan(5);
  for (const [, role, id] of cells) {
    const plate = page.querySelector(`#r-${id}`);
    expect(plate, `${role} ${id}`).not.toBeNull();
    if (plate!.matches(".gap")) {
      expect(words(plate), id).toMatch(/[a-z)]\.$|likewise$/);
      expect(plate!.querySelectorAll("svg, table"), id).toHaveLength(0);
    } else if (role === "figure")
      expect(plate!.querySelectorAll("svg path, svg circle, svg rect").length, id).toBeGreaterThan(0);
    else if (role === "table") expect(plate!.querySelectorAll("tbody tr").length, id).toBeGreaterThan(0);
  }
  const text = [...page.querySelectorAll("main > .part:not(#workings)")].map(words).join(" ");
  expect(text).not.toMatch(/undefined|NaN|\bnull\b|\[object|\( *\)| {2}|\.\./);
  expect([...page.querySelectorAll(".prose p")].filter((paragraph) => words(paragraph) === "")).toEqual([]);
  expect(page.querySelectorAll(".problem")).toHaveLength(0);
}

function words(element: Element | null): string {
  return (element?.textContent ?? "").replaceAll("\u00a0", " ").replace(/\s+/g, " ").trim();
}

const results = (page: Document): readonly string[] =>
  [...page.querySelectorAll(".schedule tbody tr:not(.schedule-section)")].map(words);

test("one unit with one session and no data sheet: force and travel stand, all else says why it does not", async () => {
  const { unit, catalogue } = await draftOn({ ...noData, ...noFilm });
  expect(results(unit).filter((row) => row.startsWith("Actuation force"))).toHaveLength(1);
  expect(words(unit.querySelector("#s6"))).toContain(
    "No data sheet and no ergonomic limit is recorded for this unit, so that no statement of conformity is made.",
  );
  expect(words(unit.querySelector("#r-latency"))).toContain("Nothing to show: latency was not measured on this unit.");
  expect(words(unit.querySelector("#r-press-list"))).toMatch(/likewise$/);
  expect(words(unit.querySelector("#r-claims"))).toContain("Nothing was asked: it takes four keys at least.");
  expect(words(unit.querySelector("#report-items"))).toContain("7.8.2.1 p Results of outside providers none declared");
  expect(words(catalogue.querySelector("#s2"))).toContain("With fewer than two units measured, none can be compared");
  expect(words(catalogue.querySelector("#r-latencies"))).toContain("No latency was measured.");
  expect(catalogue.querySelectorAll("script, select, button")).toHaveLength(0);
});

test("one key: it stands alone in the schedule, and nothing is compared with it", async () => {
  const { unit } = await draftOn({ ...noData, ...noFilm, ...oneKey });
  expect(results(unit)).toContainEqual(expect.stringMatching(/^Actuation force, KeyF alone \([\d.]+ ± [\d.]+\) cN$/));
  expect(results(unit).filter((row) => row.includes("not available"))).toEqual([]);
  expect(words(unit.querySelector("#r-key-force"))).toContain("Nothing to compare: one key was measured.");
  expect(words(unit.querySelector("#r-map"))).toContain("Nothing to compare: one key was measured.");
  expect(words(unit.querySelector("#s1"))).toContain("Of the method's keys KeyA was not recorded.");
});

test("a unit that was only filmed has latencies and says that it has no force", async () => {
  const { unit, catalogue } = await draftOn({ ...noForce });
  expect(words(unit.querySelector("#s1"))).toContain("No force-displacement results: this unit has no");
  expect(words(unit.querySelector("#r-curve"))).toContain(
    "There is no curve: this unit has no force-displacement session",
  );
  expect(words(unit.querySelector("#s6"))).toContain("No statement of conformity is made");
  expect(results(unit).filter((row) => row.startsWith("Latency L, usb"))).toHaveLength(1);
  expect(words(catalogue.querySelector("#s0, .part"))).toContain("no force-displacement session");
});

test("a session without contact readings says that none was recorded, what is absent for it, and what stands", async () => {
  const { unit, catalogue } = await draftOn({
    "units/u01/s1/session.yaml": replacing("contact_source: electrical", "contact_source: none"),
    "units/u01/s1/force.csv": (text) => text.replace(/,[01]$/gm, ","),
  });
  expect(words(unit.querySelector("#s1"))).toContain(
    "No contact was recorded (contact source: none), and a curve of force does not show where the switch closes and " +
      "opens. Pre-travel, actuation force, operating force, reset point, force at the reset point, differential travel " +
      "and work to actuate are therefore absent",
  );
  expect(words(unit.querySelector("#s2"))).toContain("because the session has no contact readings");
  expect(words(unit.querySelector("#s3"))).toContain(
    "no point of actuation, reset or bottom-out that could be located",
  );
  expect(words(unit.querySelector("#s4"))).toContain("No key has an actuation force");
  expect(words(unit.querySelector("#s4"))).not.toMatch(/curve alone|With one key measured/);
  expect(results(unit).filter((row) => row.startsWith("Tactile ratio"))).toHaveLength(1);
  expect(words(catalogue.querySelector("main"))).toContain("u01 (the session has no contact readings");
});

test("curves are cut off above what a finger meets, so that an end stop does not press all panels flat", async () => {
  const { catalogue } = await draftOn({
    "units/u01/s1/force.csv": (text) => text.replace(/(,press,4\.000),[\d.]+/g, "$1,300.0"),
  });
  expect(words(catalogue.querySelector("#r-curves"))).toContain("Cut off at 70 cN.");
});

test("a unit without any session says so throughout", async () => {
  const { unit } = await draftOn({ ...noForce, ...noFilm, ...noData });
  expect(words(unit.querySelector("#r-sessions"))).toContain("No session of this unit is recorded.");
  expect(words(unit.querySelector(".field-work"))).toContain("no measurement for this dossier");
  expect(results(unit)).toEqual([
    "Every session lies within a calibration of its rig met",
    "No result needs a correction or a retest for its rig's sake met",
    "As many keys were measured as the method asks for not met",
  ]);
});

test("every connection has its results, however many there are", async () => {
  const connections = ["usb", "receiver", "bluetooth", "dock", "hub"];
  const setting = (name: string): string =>
    `  ${name}: { polling_set: 1000 Hz, polling_measured_Hz: 998, debounce: not adjustable, adapter: none }\n`;
  const { unit, catalogue } = await draftOn({
    "units/u01/unit.yaml": replacing("connections: [usb, receiver]", `connections: [${connections.join(", ")}]`),
    "units/u01/s2/session.yaml": (text) => text.replace(setting("usb"), connections.map(setting).join("")),
    "units/u01/s2/presses.csv": (text) => {
      const [head = "", ...rows] = text.trimEnd().split("\n");
      return [
        head,
        ...connections.flatMap((name, index) =>
          rows.map((row) => row.replace("usb,KeyF,c1", `${name},KeyF,c${index + 1}`)),
        ),
        "",
      ].join("\n");
    },
    "units/u01/s2/films.csv": (text) => {
      const [head = "", row = ""] = text.trimEnd().split("\n");
      const hashes = "0123456789abcdef";
      return [
        head,
        ...connections.map((_, index) =>
          row.replace("c1,c1.mov,0", `c${index + 1},c${index + 1}.mov,${hashes[index]}`),
        ),
        "",
      ].join("\n");
    },
  });
  for (const name of connections) {
    expect(results(unit).filter((row) => row.startsWith(`Latency L, ${name}`))).toHaveLength(1);
    expect(words(unit.querySelector("#r-budget"))).toContain(name);
  }
  expect(catalogue.querySelectorAll("#r-latencies tbody tr")).toHaveLength(5);
});

test("a unit that was measured after its rig's calibration was due bears a star in the catalogue, with the reason", async () => {
  const { unit, catalogue } = await draftOn({
    "rigs/tester-1/rig.yaml": (text) => text.replace(/due: \d{4}-\d{2}-\d{2}/, "due: 2026-03-01"),
  });
  expect(words(catalogue.querySelector("#r-units tbody tr"))).toMatch(/^u01.*held\*$/);
  expect(words(catalogue.querySelector("#r-unit-remarks tbody tr"))).toMatch(
    /^u01 ?measured on 2026-03-09, 8 days after calibration \S+ of tester-1 was due$/,
  );
  expect(words(unit.querySelector("#s1"))).toContain("nothing witnesses its state on that day");
});
