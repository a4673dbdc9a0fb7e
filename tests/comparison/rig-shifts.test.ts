import { expect, test } from "vitest";
import { calibrationStanding, failedRigChecks, rigClaimLevel, sessionDoubts } from "../../src/comparison/index.js";
import type { RigCheckResult, RigHistory } from "../../src/comparison/index.js";
import { Quantity } from "../../src/metrology/index.js";
import type { Calibration } from "../../src/records/archive.js";
import { own, present } from "./support.js";

const evidence = { kind: "rows", file: "rigs/tester-1/rig.yaml", firstLine: 1, lastLine: 1, columns: [] } as const;
const calibration = (date: string, due: string, span: number): Calibration => ({
  date,
  due,
  certificate: `C-${date}`,
  terms: {
    forceSpan: {
      value: { value: span, symbol: "1", evidence },
      u: { value: 0.003, symbol: "1", evidence },
      distribution: "normal",
    },
  },
  evidence,
});
const span = (date: string, value: number, u = 0.001): RigCheckResult => ({
  date,
  kind: "force_span",
  unit: "",
  characteristic: "",
  value: own(`check/${date}`, value, u, { symbol: "1" }),
  reference: new Quantity(1, "1", [], evidence),
});
const rig = (checks: readonly RigCheckResult[], calibrations: readonly Calibration[] = []): RigHistory => ({
  id: "tester-1",
  calibrations,
  checks,
  sessions: [],
  studies: [],
  methods: [],
});
const force = { name: "Actuation force", measured: own("force", 50, 0.2) };
const work = { name: "Work to actuate", measured: own("work", 0.8, 0.002, { symbol: "mJ" }) };
const travel = { name: "Pre-travel", measured: own("travel", 2, 0.01, { symbol: "mm" }) };
const drifted = [span("2026-03-02", 1), span("2026-03-16", 1.012), span("2026-03-30", 1)];

test("a shifted span puts every result in doubt that scales with the force, and no travel", () => {
  const [doubt, ...more] = sessionDoubts(rig(drifted), "2026-03-09T10:00:00Z", [force, work, travel]);
  expect(more).toEqual([]);
  expect(doubt!.shift).toMatchObject({ watch: "span of the force", span: { from: "2026-03-02", until: "2026-03-30" } });
  expect(doubt!.consequences.map(({ item }) => item.name)).toEqual(["Actuation force", "Work to actuate"]);
  expect(present(doubt!.consequences[0]!.effect).value).toBeCloseTo((50 * 0.012) / 1.012, 10);
  expect(doubt!.consequences[0]!.standing).toBe("may be shifted");
});

test("a day outside the span is in no doubt, nor is any where no check failed", () => {
  expect(sessionDoubts(rig(drifted), "2026-03-31", [force])).toEqual([]);
  expect(sessionDoubts(rig(drifted), "2026-03-01", [force])).toEqual([]);
  expect(sessionDoubts(rig([span("2026-03-02", 1.001)]), "2026-03-02", [force])).toEqual([]);
});

test("a neighbour of a failed check beyond two standard uncertainties on its side failed too; one on the other side did not", () => {
  const values = [1.0002, 0.9974, 1.008, 1.0026, 1.009, 0.9998];
  const checks = values.map((value, index) => span(`2026-03-0${index + 1}`, value));
  expect([...failedRigChecks(rig(checks))].map(({ date }) => date).sort()).toEqual([
    "2026-03-03",
    "2026-03-04",
    "2026-03-05",
  ]);
});

test("five checks of a series ask for its average too, so each kind of question is claimed at half the level", () => {
  const checks = [1, 2, 3, 4, 5].map((day) => span(`2026-03-0${day}`, 1));
  expect(rigClaimLevel(rig(checks.slice(1)))).toBe(0.05);
  expect(rigClaimLevel(rig(checks))).toBe(0.025);
});

test("a session after the due date is held against the calibration that followed", () => {
  const calibrations = [calibration("2025-03-31", "2026-03-31", 1), calibration("2026-04-07", "2027-04-07", 1.001)];
  expect(calibrationStanding(rig([], calibrations), "2026-04-02T09:00:00Z")).toMatchObject({
    standing: "expired",
    daysOverdue: 2,
    next: { date: "2026-04-07" },
    moved: [],
  });
  expect(calibrationStanding(rig([], calibrations), "2026-03-31").standing).toBe("in force");
  expect(calibrationStanding(rig([], calibrations), "2025-03-30").standing).toBe("none");
  const moved = [calibrations[0]!, calibration("2026-04-07", "2027-04-07", 1.02)];
  expect(calibrationStanding(rig([], moved), "2026-04-02").moved).toEqual(["forceSpan"]);
  expect(calibrationStanding(rig([], calibrations.slice(0, 1)), "2026-04-02")).toMatchObject({
    next: null,
    moved: null,
  });
});
