import { beforeAll, expect, test } from "vitest";
import type { Table } from "../../src/figures/table.js";
import { fewestFound, mostFalse } from "../../tools/claims/bars.js";
import { claimingReports, claimsOf } from "../../tools/claims/claims-of.js";
import type { Judged } from "../../tools/claims/judge-archive.js";
import { judgeArchive } from "../../tools/claims/judge-archive.js";
import type { Reports } from "../../tools/claims/open-reports.js";
import { openReports } from "../../tools/claims/open-reports.js";
import { tallyEffects, tallyReports } from "../../tools/claims/tally.js";

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

test.each(["moved_force", "rig_drift"] as const)("a planted %s is claimed by the report that should", (effect) => {
  const [tally] = tallyEffects(seeds(501, 6).map((seed) => judgeArchive(reports, seed, effect, { archive: small })));
  expect(tally!.found).toBeGreaterThanOrEqual(fewestFound(6));
});
