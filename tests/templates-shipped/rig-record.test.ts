import { beforeAll, expect, test } from "vitest";
import type { Reports } from "../../tools/claims/open-reports.js";
import { openReports } from "../../tools/claims/open-reports.js";
import { replacing } from "../records/make-archive.js";
import { claimed, countIn, outcomeOf, quantityIn, rowWhere, rowsOf, stateOn } from "./state-on.js";

let reports: Reports;
beforeAll(async () => {
  reports = await openReports(["rig-record"]);
});

const header = "date,kind,unit,characteristic,value,u,reference,symbol";
const span = (date: string, value: number): string => `${date},force_span,,,${value},0.001,1,1`;
const checks = (...rows: readonly string[]): Record<string, string> => ({
  "rigs/tester-1/checks.csv": [header, ...rows, ""].join("\n"),
});
/** One failed check of the span between two good ones, around the only session. */
const aPercentHigh = checks(
  span("2026-02-02", 1),
  span("2026-03-02", 1.0005),
  span("2026-03-16", 1.012),
  span("2026-03-30", 0.9995),
);
const day = (index: number): string => new Date(Date.UTC(2025, 10, 10 + 7 * index)).toISOString().slice(0, 10);

test("results between the last good and the next good check are listed with effect and consequence", () => {
  const stated = stateOn(reports, "rig-record", aPercentHigh, "tester-1");
  const found = rowWhere(stated, "spans", { what: "span of the force" });
  expect([found["from"], found["until"], found["failed"]]).toEqual(["2026-03-02", "2026-03-30", "2026-03-16"]);
  expect(quantityIn(found["shift"]).value).toBeCloseTo(1.2, 6);
  const rows = rowsOf(stated, "consequences");
  expect(rows.map(({ name }) => (name as string).replace("u01/s1 of 2026-03-09, ", ""))).toEqual([
    ...["actuation force", "operating force", "force at the tactile peak", "force in the valley"],
    ...["force at the reset point", "work to actuate"],
  ]);
  for (const row of rows) {
    expect(quantityIn(row["effect"]).value).toBeCloseTo((quantityIn(row["value"]).value * 0.012) / 1.012, 6);
    expect(row["reason"]).toMatch(/^may be shifted/);
  }
  expect(outcomeOf(stated, "no-retest")).toBe("no");
});

test("what is printed of a corrected result adds up, and half of the shift is taken off where it may not have begun", () => {
  const stated = stateOn(reports, "rig-record", aPercentHigh, "tester-1");
  const reissued = rowsOf(stated, "consequences").filter(({ action }) => action === "re-issue");
  expect(reissued.length).toBeGreaterThan(0);
  for (const [index, row] of rowsOf(stated, "corrections").entries()) {
    const [value, correction, corrected] = ["value", "correction", "corrected"].map(
      (name) => quantityIn(row[name]).value,
    );
    expect(correction).toBeCloseTo(-quantityIn(reissued[index]!["effect"]).value / 2, 9);
    expect(value! + correction!).toBeCloseTo(corrected!, 9);
    expect(row["taken"]).toBe("half of the effect");
    expect(reissued[index]!["reason"]).toMatch(/^may be shifted, so half is taken off/);
  }
});

test("single keys in doubt are counted by characteristic, with the verdicts that a correction changes", () => {
  const limit = (cN: number): string =>
    `limits:\n  - { characteristic: actuation_force, max_cN: ${cN}, binds: each_key, force: limit, source: Data sheet }`;
  const force = quantityIn(
    rowsOf(stateOn(reports, "rig-record", aPercentHigh, "tester-1"), "consequences")[0]!["value"],
  ).value;
  const verdicts = (cN: number) =>
    rowWhere(
      stateOn(reports, "rig-record", { ...aPercentHigh, "lab.yaml": replacing("limits:", limit(cN)) }, "tester-1"),
      "keys-in-doubt",
      { name: "u01/s1, actuation force" },
    )["verdicts"];
  expect(verdicts(200)).toBe("none");
  expect(verdicts(Number((force - 1).toFixed(2)))).toMatch(/^Key[A-Z]: does not conform, corrected undecided/);
});

test("a shift far below a result's uncertainty asks for no action", () => {
  const small = checks(
    "2026-03-02,force_span,,,1,0.0001,1,1",
    "2026-03-16,force_span,,,1.001,0.0001,1,1",
    "2026-03-30,force_span,,,1,0.0001,1,1",
  );
  const stated = stateOn(reports, "rig-record", small, "tester-1");
  expect(new Set(rowsOf(stated, "consequences").map(({ action }) => action))).toEqual(new Set(["no action"]));
  expect(outcomeOf(stated, "no-retest")).toBe("yes");
});

test("a neighbour of a failed check beyond two standard uncertainties on its side belongs to the same stretch", () => {
  const values = [1.0002, 0.9996, 1.008, 1.0026, 1.009, 0.9998];
  const stated = stateOn(reports, "rig-record", checks(...values.map((value, i) => span(day(i), value))), "tester-1");
  const [found, ...others] = rowsOf(stated, "spans");
  expect(others).toEqual([]);
  expect(found!["failed"]).toBe([2, 3, 4].map(day).join(", "));
});

test("one check in forty beyond three standard uncertainties breaks a run rule and is no claim", () => {
  const values = Array.from({ length: 40 }, (_, i) =>
    i === 20 ? 1.0032 : 1 + [0.0004, 0.0007, -0.0009, -0.0006][i % 4]!,
  );
  const stated = stateOn(reports, "rig-record", checks(...values.map((value, i) => span(day(i), value))), "tester-1");
  expect(rowWhere(stated, "rules", { name: "Span of the force" })["rules"]).toBe(`1 beyond 3 sigma (${day(20)})`);
  expect(claimed(stated)).toEqual([]);
  expect(rowsOf(stated, "spans")).toEqual([]);
});

test("each series says what one of its checks would show, and a departure of that size is found nine times in ten", () => {
  const values = Array.from({ length: 10 }, (_, i) => 1 + [0.0004, -0.0006][i % 2]!);
  const stated = stateOn(reports, "rig-record", checks(...values.map((value, i) => span(day(i), value))), "tester-1");
  const seen = quantityIn(rowWhere(stated, "series", { name: "Span of the force" })["seen"]).value;
  let found = 0;
  for (const noise of [-2, -1.2, -1.04, -0.67, -0.39, -0.13, 0.13, 0.39, 0.67, 1.04]) {
    const one = values.map((value, i) => (i === 5 ? 1 + seen + 0.001 * noise : value));
    const odd = stateOn(reports, "rig-record", checks(...one.map((value, i) => span(day(i), value))), "tester-1");
    found += countIn(rowWhere(odd, "series", { name: "Span of the force" })["failed"]);
  }
  expect(found).toBeGreaterThanOrEqual(9);
  expect(seen).toBeLessThan(0.0055);
});

test("a lasting shift of one standard uncertainty is seen by the moving average and by no single check", () => {
  const values = Array.from(
    { length: 40 },
    (_, i) => 1 + (i < 15 ? 0 : 0.0013) + [0.0004, -0.0006, 0.0006, -0.0004][i % 4]!,
  );
  const stated = stateOn(reports, "rig-record", checks(...values.map((value, i) => span(day(i), value))), "tester-1");
  expect(claimed(stated)).toEqual(["Did the checks shift for good? span of the force"]);
  expect(countIn(rowWhere(stated, "series", { name: "Span of the force" })["failed"])).toBe(0);
});

test("a moving average starts anew at a calibration, so that a cured shift signals nothing afterwards", () => {
  const values = Array.from(
    { length: 20 },
    (_, i) => 1 + (i >= 4 && i < 12 ? 0.003 : 0) + [0.0004, -0.0006, 0.0006, -0.0004][i % 4]!,
  );
  const calibrated = day(12);
  const files = checks(...values.map((value, i) => span(day(i), value)));
  const beyond = (overrides: Parameters<typeof stateOn>[2]): readonly string[] =>
    (
      rowWhere(stateOn(reports, "rig-record", overrides, "tester-1"), "rules", { name: "Span of the force" })[
        "beyond"
      ] as string
    ).split(", ");
  const second = `  - date: ${calibrated}\n    due: 2027-03-20\n    certificate: C-26-004\n    terms:\n      force_span: { value_ratio: 1, u_ratio: 0.003, distribution: normal }\n`;
  const cured = beyond({ ...files, "rigs/tester-1/rig.yaml": (text) => `${text.trimEnd()}\n${second}` });
  expect(cured).toContain(day(11));
  expect(cured.filter((date) => date >= calibrated)).toEqual([]);
  expect(beyond(files).filter((date) => date >= calibrated)).not.toEqual([]);
});

test("a session after the calibration was due is listed, and the next certificate says what follows", () => {
  const second = (spanRatio: string): string => `    due: 2026-03-01
    certificate: C-25-118
    terms:
      force_span: { value_ratio: 1.000, u_ratio: 0.003, distribution: normal }
      force_zero: { value_cN: 0.0, u_cN: 0.15, distribution: normal }
      compliance: { value_mm_per_cN: 0.0001, u_mm_per_cN: 0.00002, distribution: rectangular }
  - date: 2026-03-20
    due: 2027-03-20
    certificate: C-26-004
    terms:
      force_span: { value_ratio: ${spanRatio}, u_ratio: 0.003, distribution: normal }
`;
  const rig = (ratio: string) => ({
    "rigs/tester-1/rig.yaml": (text: string) => text.replace(/ {4}due: 2026-11-03[^]*$/, second(ratio)),
  });
  const same = stateOn(reports, "rig-record", rig("1.002"), "tester-1");
  expect(outcomeOf(same, "within-calibration")).toBe("no");
  const found = rowWhere(same, "outside", { session: "u01/s1" });
  expect(found["why"]).toBe("C-25-118 was due on 2026-03-01");
  expect(found["follows"]).toMatch(/^no action: certificate C-26-004/);
  const other = stateOn(reports, "rig-record", rig("1.020"), "tester-1");
  expect(rowWhere(other, "outside", { session: "u01/s1" })["follows"]).toMatch(/^retest: .* span of the force/);
});

test("without checks it is undecided whether any result needs a retest", () => {
  const stated = stateOn(reports, "rig-record", { "rigs/tester-1/checks.csv": null }, "tester-1");
  expect(outcomeOf(stated, "no-retest")).toBe("undecided");
  expect(outcomeOf(stated, "within-calibration")).toBe("yes");
  for (const id of ["series", "rules", "spans", "consequences", "claims"]) expect(rowsOf(stated, id)).toEqual([]);
});

const readers = (later: (press: number) => number): Record<string, string> => ({
  "studies/readers-1/study.yaml":
    "id: readers-1\ntitle: Two readers\nkind: readers\nquestion: How far apart?\nfactors: [reader, repeat]\n",
  "studies/readers-1/readings.csv": [
    "unit,key,connection,operator,reader,rig,method,day,mount,repeat,characteristic,value,symbol",
    ...Array.from({ length: 28 }, (_, i) => i + 1).flatMap((press) =>
      ["reader-a", "reader-b"].map((reader) => {
        const frames = 20 + (press % 5) + (reader === "reader-b" ? later(press) : 0);
        return `u01,KeyF,usb,,${reader},camera-1,latency@1,,,${press},latency,${frames},ms`;
      }),
    ),
    "",
  ].join("\n"),
});

test("two readers are counted by frames apart, and a lasting difference is claimed", () => {
  const stated = stateOn(
    reports,
    "rig-record",
    readers((press) => (press % 14 === 0 ? 2 : press % 2)),
    "camera-1",
  );
  const found = rowWhere(stated, "readers", { film: "study readers-1" });
  expect(["presses", "equal", "one", "beyond"].map((key) => countIn(found[key]))).toEqual([28, 12, 14, 2]);
  expect(quantityIn(found["offset"]).value).toBeCloseTo(18 / 28, 9);
  expect(claimed(stated)).toEqual(["Do two readers differ for good? reader-a, reader-b"]);
});

test("readers that differ as often one way as the other are not said to differ, nor ones that agree wholly", () => {
  const even = stateOn(
    reports,
    "rig-record",
    readers((press) => [0, 1, 0, -1][press % 4]!),
    "camera-1",
  );
  expect(claimed(even)).toEqual([]);
  const equal = stateOn(
    reports,
    "rig-record",
    readers(() => 0),
    "camera-1",
  );
  expect(countIn(rowWhere(equal, "readers", { film: "study readers-1" })["equal"])).toBe(28);
  expect(claimed(equal)).toEqual([]);
});

test("a calibration that begins after the first session leaves that session without one", () => {
  const late = { "rigs/tester-1/rig.yaml": replacing("date: 2025-11-03", "date: 2026-03-10") };
  const stated = stateOn(reports, "rig-record", late, "tester-1");
  expect(rowWhere(stated, "outside", { session: "u01/s1" })["follows"]).toMatch(/^cannot tell/);
});

const cameraChecks = (
  kind: string,
  bad: number,
  u: number,
  reference: number,
  symbol: string,
): Record<string, string> => ({
  "rigs/camera-1/checks.csv": [
    header,
    ...["2026-03-02", "2026-03-16", "2026-03-30"].map(
      (date, i) => `${date},${kind},,,${i === 1 ? bad : reference},${u},${reference},${symbol}`,
    ),
    "",
  ].join("\n"),
});

test("a plunger that ran faster than stated made latencies too small by its share of the travel", () => {
  const stated = stateOn(reports, "rig-record", cameraChecks("plunger_speed", 126, 0.5, 120, "mm/s"), "camera-1");
  const [row, ...others] = rowsOf(stated, "consequences");
  expect(others).toEqual([]);
  expect(row!["name"]).toBe("u01/s2 of 2026-03-10, latency, usb");
  // A pre-travel of about 2 mm at 120 mm/s takes 16.6 ms, of which 5 % is 0.83 ms.
  expect(quantityIn(row!["effect"]).value).toBeCloseTo(-0.83, 1);
});

test("a check that nothing ties to a result asks for a retest rather than a guess", () => {
  const stated = stateOn(reports, "rig-record", cameraChecks("detector_offset", 3, 0.2, 0, "ms"), "camera-1");
  expect(rowsOf(stated, "consequences").map(({ action, reason }) => [action, reason])).toEqual([
    ["retest", "may be shifted; the size of the effect is not known: nothing says how this check bears on a result"],
  ]);
});
