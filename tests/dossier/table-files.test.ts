import { expect, test } from "vitest";
import { link } from "../../src/figures/link.js";
import { table } from "../../src/figures/table.js";
import { decideConformity } from "../../src/metrology/decision.js";
import { evidenceStep } from "../../src/metrology/evidence.js";
import { coverageFactor } from "../../src/metrology/expanded.js";
import { Absent, Count, Quantity } from "../../src/metrology/quantity.js";
import { observedSource } from "../../src/metrology/source.js";
import { tableCsv, tableJson } from "../../src/dossier/table-files.js";
import { documentOf, pageOfTables } from "./table-page.js";

const nowhere = evidenceStep("test", []);
const force = new Quantity(
  45.123456,
  "cN",
  [{ source: observedSource("s", "Scatter", 0.5, "cN", 7), contribution: 0.5 }],
  nowhere,
);
const limits = { max: new Quantity(50, "cN", [], nowhere) };
const sample = table(
  [
    { key: "unit", label: "Unit" },
    { key: "meanForce", label: "Force" },
    { key: "keys", label: "Keys" },
    { key: "verdict", label: "Limits" },
  ],
  [
    { unit: link("u01", "u01.html"), meanForce: force, keys: new Count(8), verdict: decideConformity(force, limits) },
    { unit: "=1+1", meanForce: new Absent("cN", "one key"), keys: new Count(1), verdict: null },
  ],
  { finding: "F.", downloads: true },
);
const U = coverageFactor(7) * 0.5;

test("a table as CSV has each number in full with U, the reason of an absence, and verdicts in words", () => {
  expect(tableCsv(sample)).toBe(
    `unit,mean_force_cN,mean_force_U_cN,mean_force_absent,keys,verdict\r\n` +
      `u01,45.123456,${U},,8,conforms\r\n'=1+1,,,one key,1,\r\n`,
  );
});

test("a column of several units of measure names each row's own", () => {
  const travel = new Quantity(2, "mm", [], nowhere);
  const mixed = table([{ key: "mean", label: "Mean" }], [{ mean: force }, { mean: travel }], { finding: "F." });
  expect(tableCsv(mixed)).toBe(`mean,mean_U,mean_symbol\r\n45.123456,${U},cN\r\n2,0,mm\r\n`);
});

test("a table as JSON has value, U, u, degrees of freedom, k, level and symbol, and never a printed number", () => {
  const made = JSON.parse(tableJson(sample, "Caption")) as { columns: unknown[]; rows: Record<string, unknown>[] };
  expect(made.rows[0]).toMatchObject({
    unit: { text: "u01", href: "u01.html" },
    meanForce: { value: 45.123456, U, u: 0.5, dof: 7, k: coverageFactor(7), level: 0.95, symbol: "cN" },
    keys: { count: 8 },
    verdict: { verdict: "conforms", outcome: "yes" },
  });
  expect(made.rows[1]).toEqual({
    unit: "=1+1",
    meanForce: { absent: "one key", symbol: "cN" },
    keys: { count: 1 },
    verdict: null,
  });
});

test("a result in a file is its number with its name and its verdict", () => {
  const value = { kind: "result", label: "Force", value: force, verdict: decideConformity(force, limits) } as const;
  const made = table([{ key: "force", label: "Force" }], [{ force: value }], { finding: "F." });
  expect(tableCsv(made)).toBe(`force_cN,force_U_cN,force_verdict\r\n45.123456,${U},conforms\r\n`);
  const [row] = (JSON.parse(tableJson(made, "")) as { rows: { force: object }[] }).rows;
  expect(row!.force).toMatchObject({ result: "Force", value: 45.123456, verdict: "conforms" });
});

test("the files stand beside the table as data addresses, and only where they are asked for", () => {
  const document = documentOf(
    pageOfTables([sample, table([{ key: "a", label: "A" }], [{ a: "x" }], { finding: "F." })]),
  );
  const [csv, json, ...more] = [...document.querySelectorAll(".plate a[download]")];
  expect(more).toEqual([]);
  expect([csv, json].map((each) => each!.getAttribute("download"))).toEqual(["t1.csv", "t1.json"]);
  const addresses = [csv, json].map((each) => each!.getAttribute("href")!);
  expect(decodeURIComponent(addresses[0]!.split(",").slice(1).join(","))).toBe(tableCsv(sample));
  const [head, ...body] = addresses[1]!.split(",");
  expect(head).toBe("data:application/json;charset=utf-8");
  expect(decodeURIComponent(body.join(","))).toBe(tableJson(sample, "Caption 1"));
});
