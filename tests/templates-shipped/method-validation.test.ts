import { beforeAll, expect, test } from "vitest";
import { seededRandom } from "../../src/metrology/random.js";
import type { Reports } from "../../tools/claims/open-reports.js";
import { openReports } from "../../tools/claims/open-reports.js";
import { validArchive } from "../records/make-archive.js";
import { claimed, countIn, quantityIn, rowWhere, rowsOf, stateOn } from "./state-on.js";

let reports: Reports;
beforeAll(async () => {
  reports = await openReports(["method-validation"]);
});

interface Candidate {
  readonly method: string;
  readonly sdMs: number;
  readonly result: (delayMs: number) => number;
}

const film = validArchive()["methods/latency-1.yaml"]!;
const named = (id: string, change: (text: string) => string = (text) => text): Record<string, string> => ({
  [`methods/${id.replace("@", "-")}.yaml`]: change(film.replace("id: latency@1", `id: ${id}`)),
});
const injected = (text: string): string =>
  text
    .replace("observes: film", "observes: injection")
    .replace("subtract: [pc, display]", "subtract: []")
    .replace("subtract_travel: true", "subtract_travel: false");

/** A study of candidates over known delays, six results each. */
function study(
  candidates: readonly Candidate[],
  delaysMs: readonly number[] = [5, 10, 20, 40],
): Record<string, string> {
  const random = seededRandom(3);
  const row = (method: string, delay: number, repeat: number, value: number): string =>
    `,,,,,${method === "reference" ? "" : "camera-1"},${method},,delay-${delay},${repeat},latency,${value.toFixed(4)},ms`;
  return {
    "studies/candidates-1/study.yaml":
      "id: candidates-1\ntitle: Candidates\nkind: candidate_methods\nquestion: Which one?\nfactors: [method, mount, repeat]\n",
    "studies/candidates-1/readings.csv": [
      "unit,key,connection,operator,reader,rig,method,day,mount,repeat,characteristic,value,symbol",
      ...delaysMs.flatMap((delay) => [
        row("reference", delay, 1, delay),
        ...candidates.flatMap(({ method, sdMs, result }) =>
          [1, 2, 3, 4, 5, 6].map((repeat) => row(method, delay, repeat, result(delay) + sdMs * random.normal())),
        ),
      ]),
      "",
    ].join("\n"),
  };
}

test("what stretches or bends time is claimed, what runs straight is not", () => {
  const stated = stateOn(reports, "method-validation", {
    ...named("latency@2"),
    ...named("latency@3"),
    ...study([
      { method: "latency@1", sdMs: 0.3, result: (delay) => delay + 1 },
      { method: "latency@2", sdMs: 0.3, result: (delay) => 1.08 * delay },
      { method: "latency@3", sdMs: 0.1, result: (delay) => delay + 0.003 * (delay - 20) ** 2 },
    ]),
  });
  expect(claimed(stated)).toContain("Does it stretch or shrink time? latency@2");
  expect(claimed(stated)).toContain("Is it bent? latency@3");
  expect(claimed(stated).filter((text) => text.endsWith("latency@1"))).toEqual([]);
  expect(rowWhere(stated, "lines", { method: "latency@1" })["says"]).toBe("no departure shown");
  expect(rowWhere(stated, "lines", { method: "latency@2" })["says"]).toBe("not linear");
  const { value, u } = quantityIn(rowWhere(stated, "lines", { method: "latency@2" })["slope"]);
  expect(Math.abs(value - 1.08)).toBeLessThan(3 * u);
});

test("a difference is a bias only between methods that hold the same parts", () => {
  const stated = stateOn(reports, "method-validation", {
    ...named("latency@2"),
    ...named("injection@1", injected),
    ...study([
      { method: "latency@1", sdMs: 0.3, result: (delay) => delay },
      { method: "latency@2", sdMs: 0.3, result: (delay) => delay + 2 },
      { method: "injection@1", sdMs: 0.05, result: (delay) => delay + 1 },
    ]),
  });
  expect(rowWhere(stated, "compared", { method: "latency@2" })).toMatchObject({ word: "bias", stages: null });
  const other = rowWhere(stated, "compared", { method: "injection@1" });
  expect(other["word"]).toBe("measurand + method");
  expect(other["stages"]).toBe("mechanics, host driver, application and display");
  const { value, u } = quantityIn(rowWhere(stated, "compared", { method: "latency@2" })["box"]);
  expect(Math.abs(value - 2)).toBeLessThan(3 * u);
  expect(rowWhere(stated, "contents", { stage: "Mechanics" })).toMatchObject({
    "latency@1": "subtracted",
    "injection@1": "outside",
  });
  expect(rowWhere(stated, "effort", { method: "injection@1" })["opens"]).toBe("yes");
});

test("what a finger presses is not said to go at a plunger's speed, and one set-up is one", () => {
  const stated = stateOn(reports, "method-validation", {
    ...named("flick@1", (text) => text.replace("subtract_travel: true", "subtract_travel: false")),
    ...study(
      [
        { method: "latency@1", sdMs: 0.3, result: (delay) => delay },
        { method: "flick@1", sdMs: 0.3, result: (delay) => delay + 7 },
      ],
      [5],
    ),
  });
  const why = rowsOf(stated, "notes").find(({ methods }) => methods === "flick@1")!["note"] as string;
  expect(why).toMatch(/at whatever speed the key is pressed$/);
  const box = quantityIn(rowWhere(stated, "compared", { method: "flick@1" })["box"]);
  expect("operation" in box.evidence && box.evidence.operation).toBe("mean difference at 1 set-up");
});

test("repeatability is the scatter within set-ups and not between them", () => {
  const stated = stateOn(
    reports,
    "method-validation",
    study([{ method: "latency@1", sdMs: 0.5, result: (delay) => 3 * delay }]),
  );
  const row = rowWhere(stated, "repeatability-table", { method: "latency@1" });
  expect(countIn(row["results"])).toBe(24);
  expect(quantityIn(row["sd"]).value).toBeGreaterThan(0.3);
  expect(quantityIn(row["sd"]).value).toBeLessThan(0.75);
});

test("two known delays show no linearity, and none is claimed", () => {
  const stated = stateOn(
    reports,
    "method-validation",
    study([{ method: "latency@1", sdMs: 0.3, result: (delay) => 2 * delay }], [5, 10]),
  );
  expect(rowWhere(stated, "lines", { method: "latency@1" })["says"]).toBe("cannot tell");
  expect(rowsOf(stated, "claims")).toEqual([]);
});

test("minutes are those that the laboratory states, and absent where it states none", () => {
  const withMinutes = {
    "lab.yaml": validArchive()["lab.yaml"]!.replace("mount_min: 6", "mount_min: 6\n  connection_min: 12"),
    ...named("injection@1", injected),
    ...study([
      { method: "latency@1", sdMs: 0.3, result: (delay) => delay },
      { method: "injection@1", sdMs: 0.1, result: (delay) => delay },
    ]),
  };
  const stated = stateOn(reports, "method-validation", withMinutes);
  expect(quantityIn(rowWhere(stated, "effort", { method: "latency@1" })["minutes"]).value).toBe(33);
  expect(quantityIn(rowWhere(stated, "effort", { method: "injection@1" })["minutes"]).value).toBe(18);
  const without = stateOn(
    reports,
    "method-validation",
    study([{ method: "latency@1", sdMs: 0.3, result: (delay) => delay }]),
  );
  expect(() => quantityIn(rowWhere(without, "effort", { method: "latency@1" })["minutes"])).toThrow("no quantity");
});

test("an archive without candidates has empty tables and asks nothing", () => {
  const stated = stateOn(reports, "method-validation", {});
  for (const [, { rows, finding }] of stated.tables) {
    expect(rows).toEqual([]);
    expect(finding).not.toBe("");
  }
});
