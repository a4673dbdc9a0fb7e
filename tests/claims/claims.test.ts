import { readFileSync } from "node:fs";
import { beforeAll, expect, test } from "vitest";
import type { Table } from "../../src/figures/table.js";
import { fewestFound, mostFalse } from "../../tools/claims/bars.js";
import { claimingReports, claimsOf } from "../../tools/claims/claims-of.js";
import type { Judged } from "../../tools/claims/judge-archive.js";
import { judgeArchive } from "../../tools/claims/judge-archive.js";
import type { Reports } from "../../tools/claims/open-reports.js";
import { openReports } from "../../tools/claims/open-reports.js";
import { effectsTable, reportsTable } from "../../tools/claims/render-tallies.js";
import { tallyEffects, tallyReports } from "../../tools/claims/tally.js";
import { replaceBetween } from "../../tools/coverage/write-page.js";

let reports: Reports;
beforeAll(async () => {
  reports = await openReports(claimingReports.filter((name) => name !== "method-validation"));
});

/** Four units by both methods and two more, on coarser curves: quicker, and the same claims are asked. */
const small = { retested: 4, stepMm: 0.04 } as const;

const seeds = (first: number, count: number): readonly number[] => Array.from({ length: count }, (_, i) => first + i);
const verdict = (outcome: "yes" | "no" | "undecided") =>
  ({ kind: "verdict", family: "change", outcome, statement: "", rule: "", cites: [] }) as const;
const stated = (report: string, id: string, rows: Table["rows"]) => {
  const columns = Object.keys(rows[0]!).map((key) => ({ key, label: key }));
  return {
    report,
    tables: new Map([[id, { kind: "table", columns, rows, finding: "" } as Table]]),
    criteria: new Map(),
  };
};

test("the bar for 200 archives is 16, and for fewer the count that is overstepped no oftener", () => {
  expect(mostFalse(200)).toBe(16);
  expect([12, 20, 60].map(mostFalse)).toEqual([2, 3, 7]);
  expect(fewestFound(6)).toBe(4);
  expect(fewestFound(200)).toBe(171);
});

test("a claim is a row that says yes, or a verdict of a change that says moved", () => {
  const asked = stated("unit-dossier u01", "claims", [
    { question: "a", says: "yes" },
    { question: "b", says: "not shown" },
  ]);
  expect(claimsOf(asked)).toEqual([{ report: "unit-dossier u01", table: "claims", row: "a | yes" }]);
  const moves = stated("method-change m@2", "moves", [
    { unit: "u01", says: verdict("no") },
    { unit: "u02", says: verdict("yes") },
    { unit: "u03", says: verdict("undecided") },
    { unit: "u04", says: null },
  ]);
  expect(claimsOf(moves).map(({ row }) => row)).toEqual(["u02"]);
});

test("a report without the table that should state its claims is refused, not counted as silent", () => {
  const other = stated("unit-dossier u01", "other", [{ says: "yes" }]);
  expect(() => claimsOf(other)).toThrow('has no table "claims"');
  const renamed = stated("unit-dossier u01", "claims", [{ answer: "yes" }]);
  expect(() => claimsOf(renamed)).toThrow('has no column "says"');
});

test("counts go by archive, not by claim", () => {
  const claim = (row: string) => ({ report: "r", table: "t", row });
  const one = (claims: readonly string[]): Judged => ({
    seed: 1,
    effect: null,
    reports: ["r"],
    claims: claims.map(claim),
    found: null,
  });
  const [tally] = tallyReports([one(["a", "b"]), one([]), one(["a"])]);
  expect(tally).toMatchObject({ archives: 3, withClaim: 2, causes: [{ archives: 2 }, { archives: 1 }] });
});

test(
  "with nothing planted no report claims anything in more archives than its bar allows",
  { timeout: 120_000 },
  () => {
    const judged = seeds(1, 12).map((seed) =>
      judgeArchive(reports, seed, null, { templates: ["unit-dossier", "variance-study"], archive: small }),
    );
    const tallies = tallyReports(judged);
    expect(tallies.map(({ report }) => report)).toEqual([
      ...seeds(1, 6).map((n) => `unit-dossier u0${n}`),
      "variance-study",
    ]);
    expect(tallies.filter(({ withClaim, most }) => withClaim > most)).toEqual([]);
  },
);

test.each(["outlier_key", "reader_offset", "moved_force", "rig_drift"] as const)(
  "a planted %s is claimed by the report that should",
  { timeout: 60_000 },
  (effect) => {
    const [tally] = tallyEffects(seeds(501, 6).map((seed) => judgeArchive(reports, seed, effect, { archive: small })));
    expect(tally!.found).toBeGreaterThanOrEqual(fewestFound(6));
  },
);

test("the tables of a run say what was claimed and how often, with an exact interval, and where an effect was not found", () => {
  const causes = ["a", "b", "c", "d", "e"].map((what) => ({ what, archives: 1 }));
  const reportRows = reportsTable([
    { report: "rig-record r", archives: 20, withClaim: 5, most: 3, causes },
    { report: "variance-study", archives: 20, withClaim: 0, most: 3, causes: [] },
  ]);
  expect(reportRows.slice(1)).toEqual([
    ["rig-record r", "20", "5", "25.0", "8.7 to 49.1", "3", "missed", "a: 1; b: 1; c: 1; d: 1; and 1 more"],
    ["variance-study", "20", "0", "0.0", "0.0 to 16.8", "3", "met", "nothing"],
  ]);
  const [, row] = effectsTable([{ effect: "outlier_key", archives: 10, found: 9, missedSeeds: [7], meetsBar: true }]);
  expect(row).toEqual([
    "outlier key",
    "KeyP of one unit harder by 10 cN",
    "unit-dossier u02",
    "10",
    "9",
    "90.0",
    "55.5 to 99.7",
    "met",
    "7",
  ]);
});

test("the page of claims has the marks between which a run writes", () => {
  const page = readFileSync(new URL("../../docs/claims.md", import.meta.url), "utf8");
  for (const name of ["claims", "effects"]) expect(replaceBetween(page, name, "new")).toContain("new");
});
