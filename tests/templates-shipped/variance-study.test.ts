import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { beforeAll, expect, test } from "vitest";
import { isQuantity } from "../../src/metrology/quantity.js";
import type { Quantity } from "../../src/metrology/quantity.js";
import { seededRandom } from "../../src/metrology/random.js";
import { remlKernel } from "../../src/statistics/index.js";
import type { Reports, Stated } from "../../tools/claims/open-reports.js";
import { openReports } from "../../tools/claims/open-reports.js";
import { writeArchive } from "../../tools/simulation/render-archive.js";
import { simulateArchive } from "../../tools/simulation/small-archive.js";
import { claimed, quantityIn, rowWhere, rowsOf, stateAt, stateOn } from "./state-on.js";

let reports: Reports;
let planted: Stated;
beforeAll(async () => {
  reports = await openReports(["variance-study"]);
  const folder = mkdtempSync(join(tmpdir(), "variance-study-"));
  try {
    const effects = ["position_effect", "first_cycle", "operator_offset"] as const;
    writeArchive(simulateArchive(12, { planted: effects, retested: 6, stepMm: 0.05 }).files, folder);
    planted = stateAt(reports, "variance-study", folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});

interface Reading {
  readonly operator: string;
  readonly unit: string;
  readonly day: number;
  readonly mount: number;
  readonly repeat: number;
  readonly value: number;
}

/** A crossed study of two operators or more; `skip` leaves readings out. */
function crossed(
  days: number,
  skip: (reading: Reading) => boolean = () => false,
): { readonly files: Record<string, string>; readonly readings: readonly Reading[] } {
  const random = seededRandom(5);
  const operators = ["operator-1", "operator-2", "reader-a", "reader-b"];
  const keys = ["KeyA", "KeyF", "KeyT"];
  const byOperator = operators.map(() => 0.5 * random.normal());
  const readings = operators
    .flatMap((operator, o) =>
      keys.flatMap((unit, u) => {
        const pair = 0.3 * random.normal();
        return Array.from({ length: days }, (_, d) =>
          [1, 2, 3].flatMap((mount) => {
            const own = 45 + 3 * u + byOperator[o]! + pair + 0.3 * random.normal();
            return [1, 2].map((repeat): Reading => {
              const value = Number((own + 0.15 * random.normal()).toFixed(3));
              return { operator, unit, day: d + 1, mount, repeat, value };
            });
          }),
        ).flat();
      }),
    )
    .filter((reading) => !skip(reading));
  const files = {
    "studies/crossed-1/study.yaml":
      "id: crossed-1\ntitle: Who measures\nkind: crossed\nquestion: What scatters?\nfactors: [operator, unit, day, mount, repeat]\n",
    "studies/crossed-1/readings.csv": [
      "unit,key,connection,operator,reader,rig,method,day,mount,repeat,characteristic,value,symbol",
      ...readings.map(
        ({ operator, unit, day, mount, repeat, value }) =>
          `u01,${unit},,${operator},,tester-1,keystroke@2,${day},${mount},${repeat},actuation_force,${value},cN`,
      ),
      "",
    ].join("\n"),
  };
  return { files, readings };
}

const sdOf = (stated: Stated, name: string): number =>
  quantityIn(rowWhere(stated, "study-components", { characteristic: "Actuation force", name })["sd"]).value;

test("planted effects of place, first cycle and operator are claimed, and nothing else", () => {
  expect([...claimed(planted)].sort()).toEqual([
    "Do operators differ? Actuation force",
    "Do operators differ? Pre-travel",
    "Does the row of a key matter? Actuation force",
    "Is the first cycle another one? Actuation force",
  ]);
});

test("the level that stands out is named with its size", () => {
  const operator = rowWhere(planted, "operators", { characteristic: "Actuation force", claim: "stands out" });
  expect(operator["operator"]).toBe("Test operator 3");
  expect(quantityIn(operator["offset"]).value).toBeGreaterThan(0.45);
  const place = rowWhere(planted, "places", { claim: "stands out" });
  expect(place["what"]).toBe("Row B less the other rows");
  const { value, u } = quantityIn(place["value"]);
  expect(Math.abs(value - 2)).toBeLessThan(3 * u);
});

test("what follows from the level that stands out is not said to be nothing, and no other factor is spoken of", () => {
  const claims = (table: string, characteristic: string) =>
    rowsOf(planted, table)
      .filter((row) => row["characteristic"] === characteristic)
      .map(({ claim }) => claim);
  expect(claims("operators", "Actuation force").sort()).toEqual([
    "not asked: follows from Test operator 3",
    "not asked: follows from Test operator 3",
    "stands out",
  ]);
  expect(claims("places", "Actuation force")).toEqual([
    "stands out",
    ...["not asked: follows from row B", "not asked: follows from row B", "not shown"],
  ]);
  expect(new Set(claims("places", "Pre-travel"))).toEqual(new Set(["not shown"]));
});

test("a row's effect moves the mean by its share of the measured keys less its share of the letters", () => {
  // KeyN and KeyZ of eight keys lie in row B, and so do 7 of 26 letters.
  const row = rowWhere(planted, "places", { what: "Row B less the other rows", characteristic: "Actuation force" });
  expect(quantityIn(row["shift"]).value).toBeCloseTo(quantityIn(row["value"]).value * (2 / 8 - 7 / 26), 9);
});

test("a standard deviation between keys stands with its interval and without a symmetric ±", () => {
  for (const { force, forceRange } of rowsOf(planted, "units")) {
    expect(quantityIn(force).u).toBe(0);
    const [low, high] = (forceRange as string).split(" to ").map(Number);
    expect(quantityIn(force).value - low!).toBeLessThan(high! - quantityIn(force).value);
  }
});

test("a component under three levels is absent, and joined with what it cannot be told from", () => {
  const rows = rowsOf(planted, "study-components").filter(({ characteristic }) => characteristic === "Pre-travel");
  expect(rows.map(({ name }) => name)).toEqual([
    "Operator + operator \u00d7 day",
    "Operator \u00d7 unit",
    "Day",
    "Mounting",
    "Repeat at one mounting",
  ]);
  const day = rows[2]!["sd"];
  expect(typeof day === "object" && day !== null && "absent" in day && !isQuantity(day) && day.reason).toBe(
    "2 levels: no estimate under 3",
  );
  expect(rows[0]!["note"]).toBe("3 levels: rough");
});

test("balanced components equal those of restricted maximum likelihood where none is negative", () => {
  const { files, readings } = crossed(1);
  const stated = stateOn(reports, "variance-study", files);
  const at = (level: (reading: Reading) => string): readonly string[] => readings.map(level);
  const found = remlKernel(
    readings.map(({ value }) => value),
    {
      operator: at(({ operator }) => operator),
      pair: at(({ operator, unit }) => `${operator} ${unit}`),
      mount: at(({ operator, unit, day, mount }) => [operator, unit, day, mount].join(" ")),
      unit: at(({ unit }) => unit),
    },
    { fixed: ["unit"], intervals: false },
  );
  const [operator, pair, mount, repeat] = found.components.map(({ sd }) => sd!);
  expect(Math.min(operator!, pair!, mount!)).toBeGreaterThan(0);
  const names = ["Operator + operator \u00d7 day", "Operator \u00d7 unit", "Mounting", "Repeat at one mounting"];
  const sds = names.map((name) => sdOf(stated, name));
  [operator, pair, mount, repeat].forEach((sd, i) => expect(sds[i]! / sd!).toBeCloseTo(1, 2));
});

test("a study with a reading missing is split by restricted maximum likelihood", () => {
  const whole = stateOn(reports, "variance-study", crossed(1).files);
  const { files } = crossed(
    1,
    ({ operator, unit, mount, repeat }) => `${operator}${unit}${mount}${repeat}` === "operator-1KeyF32",
  );
  const stated = stateOn(reports, "variance-study", files);
  expect(rowsOf(whole, "design")[0]!["procedure"]).toMatch(/^balanced: analysis of variance/);
  expect(rowsOf(stated, "design")[0]!["procedure"]).toMatch(/^not balanced: restricted maximum likelihood/);
  expect(sdOf(stated, "Mounting") / sdOf(whole, "Mounting")).toBeCloseTo(1, 1);
});

test("without a model of three units there is no component of units, and with one unit the key keeps its place", () => {
  const stated = stateOn(reports, "variance-study", {
    "units/u01/s1/session.yaml": (text) => text.replace(/exclusions: .*/, "exclusions: []"),
  });
  const names = rowsOf(stated, "archive-components").map(({ name }) => name);
  expect(names).toContain("Key: switch + place");
  expect(names.filter((name) => String(name).startsWith("Unit"))).toEqual([]);
});

test("one key far from the mean by more than matters would have misled; near ones would not", () => {
  const rows = rowsOf(planted, "alone-units");
  expect(rows.length).toBe(6);
  for (const { gap, says } of rows) {
    const { value, u } = quantityIn(gap);
    if (says === "misled") expect(Math.abs(value)).toBeGreaterThan(3 + 1.9 * u);
    if (says === "not misled") expect(Math.abs(value)).toBeLessThan(3 - 1.9 * u);
  }
  expect(rows.some(({ says }) => says === "not misled")).toBe(true);
});

test("a plan has the method's fewest keys or more, its U holds mounting and operator, and none is promised below them", () => {
  const rows = rowsOf(planted, "plans");
  const reachable = rows.filter(({ minutes }) => isQuantity(minutes as Quantity));
  expect(reachable.length).toBeGreaterThan(0);
  reachable.forEach((row, index) => {
    expect(Number(/^(\d+) key/.exec(row["plan"] as string)![1])).toBeGreaterThanOrEqual(6);
    expect(quantityIn(row["reached"]).value).toBeGreaterThan(quantityIn(row["printed"]).value);
    expect(quantityIn(row["reached"]).value).toBeLessThan(1.01 * quantityIn(row["wanted"]).value);
    if (index > 0) {
      expect(quantityIn(row["minutes"]).value).toBeGreaterThanOrEqual(
        quantityIn(reachable[index - 1]!["minutes"]).value,
      );
    }
  });
  // The planted operator is in the floor, so that a quarter of 3 cN cannot be had from one session.
  expect(rows.at(-1)!["plan"]).toMatch(/^none: /);
});

test("without any study each question of it is left unasked", () => {
  const stated = stateOn(reports, "variance-study", {
    "studies/crossed-1/study.yaml": null,
    "studies/crossed-1/readings.csv": null,
  });
  expect(rowsOf(stated, "design")).toEqual([]);
  expect(rowsOf(stated, "operators")).toEqual([]);
  expect(rowsOf(stated, "claims").filter(({ question }) => String(question).includes("operators"))).toEqual([]);
});
