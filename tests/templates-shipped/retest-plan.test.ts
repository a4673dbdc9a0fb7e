import { JSDOM } from "jsdom";
import { join } from "node:path";
import { beforeAll, expect, test } from "vitest";
import type { Reports, Stated } from "../../tools/claims/open-reports.js";
import { openReports } from "../../tools/claims/open-reports.js";
import { inTemporaryFolder, readPages, repository, runBenchfolio } from "../cli/run-benchfolio.js";
import type { Override } from "../records/make-archive.js";
import { makeArchive, validArchive } from "../records/make-archive.js";
import type { RetestedUnit } from "./retested-units.js";
import { retestedUnits } from "./retested-units.js";
import { quantityIn, rowWhere, rowsOf, stateOn } from "./state-on.js";

let reports: Reports;
beforeAll(async () => {
  reports = await openReports(["retest-plan", "rig-record"]);
});

const four: readonly RetestedUnit[] = [0, 1.5, 3.2, 4.1].map((offsetCn, i) => ({ id: `u0${i + 1}`, offsetCn }));
const waiting: RetestedUnit = { id: "u06", offsetCn: 1, isPending: true };
const stated = (units: readonly RetestedUnit[]): Stated => stateOn(reports, "retest-plan", retestedUnits(units));

test("what is expected of a waiting unit leaves out units whose own record tells of a repair between their sessions", () => {
  const repaired: RetestedUnit = { id: "u05", offsetCn: 2, movedCn: 12, note: "Membrane replaced in February 2026." };
  const row = rowWhere(stated([...four, repaired, waiting]), "expected", { unit: "u06", name: "Actuation force" });
  expect(row["basis"]).toBe("from 4 retested units of its kind (tactile)");
  expect(quantityIn(row["change"]).value).toBeCloseTo(0, 1);
  const unsaid = { ...repaired, note: "" };
  const all = rowWhere(stated([...four, unsaid, waiting]), "expected", { unit: "u06", name: "Actuation force" });
  expect(quantityIn(all["change"]).value).toBeGreaterThan(2);
});

test("of a unit that cannot be measured again it is said from which units its change is expected", () => {
  const files = retestedUnits([...four, { ...waiting, kind: "clicky" }]);
  const unit = (files["units/u06/unit.yaml"] as string).replace("status: held", "status: returned");
  const report = stateOn(reports, "retest-plan", { ...files, "units/u06/unit.yaml": unit });
  expect(rowWhere(report, "decisions", {})["basis"]).toBe(
    "from 4 retested units of all kinds, since none of its kind (clicky) were retested",
  );
  expect(rowsOf(report, "expected")).toEqual([]);
});

/** The tester's calibration due before the only force session, and one after it whose span of the force is this. */
const overdue = (spanAfter: number): Readonly<Record<string, Override>> => ({
  "rigs/tester-1/rig.yaml": (text) =>
    `${text.replace("due: 2026-11-03", "due: 2026-03-01")}${text
      .slice(text.indexOf("  - date:"))
      .replace("2025-11-03", "2026-03-20")
      .replace("C-25-118", "C-26-002")
      .replace("value_ratio: 1.000", `value_ratio: ${spanAfter}`)}`,
});

test.each([
  [1.0005, "no action", 0],
  [1.03, "retest", 1],
])(
  "a session after its calibration was due is judged as in the rig's record: next span %f, %s",
  (spanAfter, action, planned) => {
    const plan = stateOn(reports, "retest-plan", overdue(spanAfter));
    const record = stateOn(reports, "rig-record", overdue(spanAfter), "tester-1");
    const actionOf = (cell: unknown): string => (cell as string).split(":")[0]!;
    expect(actionOf(rowWhere(plan, "outside", { unit: "u01", session: "s1" })["follows"])).toBe(action);
    expect(actionOf(rowWhere(record, "outside", { session: "u01/s1" })["follows"])).toBe(action);
    const tasks = rowsOf(plan, "plan").filter(({ why }) => (why as string).includes("C-25-118 was due on 2026-03-01"));
    expect(tasks).toHaveLength(planned);
  },
);

test("a session is in doubt over the same days as in the rig's record, however many kinds of check watch one thing", () => {
  const rows = [
    "2026-02-02,force_span,,,1.0005,0.001,1,1",
    "2026-02-16,check_standard,u01,actuation_force,45.02,0.05,45,cN",
    "2026-03-16,force_span,,,1.012,0.001,1,1",
    "2026-03-23,check_standard,u01,actuation_force,45.01,0.05,45,cN",
    "2026-03-30,force_span,,,0.9995,0.001,1,1",
  ];
  const checks = {
    "rigs/tester-1/checks.csv": ["date,kind,unit,characteristic,value,u,reference,symbol", ...rows, ""].join("\n"),
  };
  const record = rowWhere(stateOn(reports, "rig-record", checks, "tester-1"), "spans", { what: "span of the force" });
  const plan = rowWhere(stateOn(reports, "retest-plan", checks), "in-doubt", { unit: "u01", session: "s1" });
  expect(plan["span"]).toBe("2026-02-16 to 2026-03-23");
  expect(plan["span"]).toBe(`${record["from"] as string} to ${record["until"] as string}`);
  expect(plan["watch"]).toBe("span of the force");
});

test("where no unit was measured by both methods, the page says that nothing can be expected", async () => {
  const latency = validArchive()["methods/latency-1.yaml"]!;
  const replaced = latency.replace("latency@1", "latency@2").replace("since:", "replaces: latency@1\nsince:");
  const { root, remove } = makeArchive({ "methods/latency-2.yaml": replaced });
  try {
    await inTemporaryFolder(async (out) => {
      const template = join(repository, "templates/retest-plan.md");
      const { stdout } = await runBenchfolio(["draft", "--data", root, "--out", out, "--json", "--template", template]);
      expect((JSON.parse(stdout) as { templateProblems: unknown[] }).templateProblems).toEqual([]);
      const plate = new JSDOM(readPages(out)["retest-plan.html"]).window.document.querySelector("#r-expected-force");
      expect(plate!.textContent).toContain("only 0 retested so far; three are needed to expect anything");
    });
  } finally {
    remove();
  }
});

test("a table of prospects speaks of picks apart from grades, and no working is marked twice in a row", async () => {
  const { root, remove } = makeArchive(retestedUnits([...four, waiting]));
  try {
    await inTemporaryFolder(async (out) => {
      const template = join(repository, "templates/retest-plan.md");
      await runBenchfolio(["draft", "--data", root, "--out", out, "--json", "--template", template]);
      const page = new JSDOM(readPages(out)["retest-plan.html"]).window.document;
      const words = (selector: string): string =>
        (page.querySelector(selector)?.textContent ?? "").replaceAll("\u00a0", " ").replace(/\s+/g, " ");
      expect(words("#r-prospects")).toContain("P (among the picks)");
      expect(words("#r-prospects")).not.toContain("P (recommended)");
      const text = words("main");
      expect(/(W\d+)(?:\s*W\d+)*\s*\1(?!\d)/.exec(text)?.[0]).toBeUndefined();
      expect(text.includes("typical, not judged")).toBe(false);
      expect(text.match(/in which they are worth most: [^.]*/)?.[0]).toBe(
        "in which they are worth most: first what may change, then what is missing, then what two sessions left open",
      );
    });
  } finally {
    remove();
  }
});
