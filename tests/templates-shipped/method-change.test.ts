import { readFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, expect, test } from "vitest";
import type { Reports, Stated } from "../../tools/claims/open-reports.js";
import { openReports } from "../../tools/claims/open-reports.js";
import { repository } from "../cli/run-benchfolio.js";
import { replacing } from "../records/make-archive.js";
import type { RetestedUnit } from "./retested-units.js";
import { retestedUnits } from "./retested-units.js";
import { quantityIn, rowWhere, rowsOf, stateOn } from "./state-on.js";

let reports: Reports;
beforeAll(async () => {
  reports = await openReports(["method-change"]);
});

const four: readonly RetestedUnit[] = [0, 1.5, 3.2, 4.1].map((offsetCn, i) => ({ id: `u0${i + 1}`, offsetCn }));
const replaced: RetestedUnit = {
  id: "u05",
  offsetCn: 2,
  movedCn: 12,
  note: "Membrane replaced by the maker in February 2026.",
};
const stated = (units: readonly RetestedUnit[]): Stated =>
  stateOn(reports, "method-change", retestedUnits(units), "keystroke@2");
const pairs = (report: Stated, over: string): unknown => {
  const row = rowWhere(report, "agreement", { name: "Actuation force", over });
  return quantityIn(row["bias"]).value;
};
const noteLines = (report: Stated): string =>
  rowsOf(report, "note")
    .map(({ line }) => line as string)
    .join("\n")
    .replaceAll("\u00a0", " ");

test("a unit whose own record tells of a repair between its sessions gives no effect of the method, and is named", () => {
  const report = stated([...four, replaced]);
  expect(pairs(report, "4")).toBeCloseTo(0, 1);
  expect(pairs(report, "5, with u05")).toBeGreaterThan(2);
  expect(rowWhere(report, "records", { unit: "u05" })["says"]).toBe(replaced.note);
  const moved = rowsOf(report, "moves").filter(({ unit, name }) => unit === "u05" && name === "Actuation force");
  expect(moved[0]!["says"]).toMatchObject({ outcome: "yes" });
  expect(moved[0]!["note"]).toContain(`own record: ${replaced.note}`);
  expect(noteLines(report)).toContain("its own record says “Membrane replaced by the maker in February 2026”");
});

test("a reduction that changes a value by its own U or more is named, and a figure asks of no characteristic by name", () => {
  const reduced = stateOn(
    reports,
    "method-change",
    {
      ...retestedUnits(four),
      "methods/keystroke-1.yaml": replacing("smoothing_window_mm: 0.12", "smoothing_window_mm: 1.6"),
    },
    "keystroke@2",
  );
  const table = reduced.tables.get("characteristics")!;
  const row = table.rows.find(({ name }) => name === "Force in the valley")!;
  expect(row["standing"]).toBe("redefined");
  expect(Number(row["ofU"])).toBeGreaterThan(1);
  expect(table.finding).toContain(
    "as much as its own U or more in: position of the valley, force in the valley and tactile ratio;",
  );
  const source = readFileSync(join(repository, "templates/method-change.md"), "utf8");
  expect(source.match(/^```ts (?:figure|table) .*(?:latency, or|or latency).*$/gm)).toBeNull();
});

test("picks are told by value with their probability, and those that cannot be separated with them", () => {
  const report = stated(four);
  const row = rowWhere(report, "picks", { purpose: "reading room" });
  expect(row).toMatchObject({ before: "u03", after: "u03", says: "stay by value" });
  expect(noteLines(report)).toMatch(/best by value is u03 .*; the probability that it is the best one is [\d.]+/);
  expect(JSON.stringify(row)).not.toContain("recommend");
});

test("a note on another time is quoted, and its unit used", () => {
  const report = stated([...four, { ...replaced, note: "Membrane replaced in 2024." }]);
  expect(pairs(report, "5")).toBeGreaterThan(2);
  expect(rowWhere(report, "records", { unit: "u05" })["follows"]).toBe("names no time between its sessions: used");
});

test("a firmware that was not recorded is said to leave a change open, and one that differs sets its unit apart", () => {
  const open = { ...four[0]!, firmware: ["not recorded", "not recorded"] as const };
  const other = { ...four[1]!, firmware: ['"1.2"', '"1.3"'] as const };
  const report = stated([open, other, four[2]!, four[3]!]);
  expect(rowWhere(report, "records", { unit: "u01" })).toMatchObject({
    says: "The firmware is not recorded in either of the two sessions.",
    follows: "used, but a change of it cannot be ruled out",
  });
  expect(rowWhere(report, "not-compared", { unit: "u02" })["why"]).toBe(
    "firmware was 1.2 and is 1.3; no conclusion on the method",
  );
  expect(noteLines(report)).toContain("so that a change of it cannot be ruled out");
});
