import { Ajv2020 } from "ajv/dist/2020.js";
import { expect, test } from "vitest";
import type { KeystrokeMethod, LatencyMethod, ScoringMethod } from "../../src/records/index.js";
import { readArchive } from "../../src/records/index.js";
import { labSchema } from "../../src/records/schemas/lab.js";
import { anyMethodSchema, methodSchemas } from "../../src/records/schemas/methods.js";
import { rigSchema } from "../../src/records/schemas/rig.js";
import { sessionSchema } from "../../src/records/schemas/session.js";
import { studySchema } from "../../src/records/schemas/study.js";
import { unitSchema } from "../../src/records/schemas/unit.js";
import { replacing, validArchive, withArchive } from "./make-archive.js";

test("a stated number carries its value, unit of measure, line and dotted path", () => {
  withArchive({}, (root) => {
    const { lab, rigs } = readArchive(root);
    expect(lab.smallestChange["actuationForce"]).toEqual({
      value: 3,
      symbol: "cN",
      evidence: {
        kind: "rows",
        file: "lab.yaml",
        firstLine: 14,
        lastLine: 14,
        columns: ["smallest_change.actuation_force_cN"],
      },
    });
    expect(rigs.get("tester-1")?.calibrations[0]?.terms["compliance"]).toMatchObject({
      value: { value: 0.0001, symbol: "mm/cN", evidence: { firstLine: 12 } },
      u: {
        value: 0.00002,
        symbol: "mm/cN",
        evidence: { firstLine: 12, columns: ["calibrations.0.terms.compliance.u_mm_per_cN"] },
      },
      distribution: "rectangular",
    });
  });
});

test("a description's evidence is its whole file", () => {
  withArchive({}, (root) => {
    expect(readArchive(root).units[0]?.evidence).toEqual({
      kind: "rows",
      file: "units/u01/unit.yaml",
      firstLine: 1,
      lastLine: 15,
      columns: [],
    });
  });
});

test("stated numbers are converted exactly into the unit of measure of their kind", () => {
  const files = {
    "methods/keystroke-2.yaml": (text: string) =>
      text
        .replace("press_speed_mm_per_s: 0.5", "press_speed_mm_per_min: 30")
        .replace("prominence_cN: 3", "prominence_gf: 3")
        .replace("smoothing_window_mm: 0.12", "smoothing_window_um: 120"),
    "lab.yaml": (text: string) =>
      text.replace("pre_travel_mm: 0.10", "pre_travel_um: 100").replace("mount_min: 6", "mount_s: 90"),
    "units/u01/unit.yaml": replacing("min_cN: 35", "min_N: 0.35"),
    "units/u01/s1/session.yaml": replacing("humidity_percent: 44", "humidity_ratio: 0.44"),
    "methods/scoring-1.yaml": replacing("latency_ms: [[5, 1], [40, 0]]", "latency_s: [[0.005, 1], [0.04, 0]]"),
  };
  withArchive(files, (root) => {
    const { methods, lab, units, problems } = readArchive(root);
    expect(problems).toEqual([]);
    const method = methods.get("keystroke@2") as KeystrokeMethod;
    expect([method.pressSpeed.value, method.prominence.value, method.smoothingWindow.value]).toEqual([
      0.5, 2.941995, 0.12,
    ]);
    expect([lab.smallestChange["preTravel"]?.value, lab.effort["mount"]?.value]).toEqual([0.1, 1.5]);
    expect(units[0]?.limits[0]?.min).toMatchObject({ value: 35, symbol: "cN" });
    expect(units[0]?.sessions[0]?.environment.humidity).toMatchObject({ value: 44, symbol: "%" });
    expect((methods.get("scoring@1") as ScoringMethod).curves["latency"]).toEqual([
      [5, 1],
      [40, 0],
    ]);
  });
});

test("methods, rigs, units and studies read as their files say", () => {
  withArchive({}, (root) => {
    const archive = readArchive(root);
    expect([...archive.methods.keys()]).toEqual(["keystroke@1", "keystroke@2", "latency@1", "scoring@1"]);
    expect(archive.methods.get("keystroke@2")).toMatchObject({
      kind: "keystroke",
      replaces: "keystroke@1",
      since: "2026-01-02",
      keys: ["KeyF", "KeyA"],
      cyclesUsed: [1, 2],
    });
    const latency = archive.methods.get("latency@1") as LatencyMethod;
    expect([latency.kept, latency.subtract, latency.subtractTravel, latency.frameRate.value]).toEqual([
      2,
      ["pc", "display"],
      true,
      1000,
    ]);
    expect(archive.methods.get("keystroke@1")).not.toHaveProperty("replaces");
    expect((archive.methods.get("scoring@1") as ScoringMethod).purposes).toEqual({
      reading_room: { actuationForce: 3, latency: 1 },
    });
    expect(
      archive.rigs.get("tester-1")?.checks.map((check) => [check.characteristic, check.value, check.symbol]),
    ).toEqual([
      ["actuationForce", 45.2, "cN"],
      ["", 0.1, "cN"],
    ]);
    expect(archive.studies[0]?.readings.map((reading) => [reading.operator, reading.day, reading.value])).toEqual([
      ["operator-1", "1", 45.1],
      ["operator-2", "1", 45.4],
      ["operator-1", "2", 44.9],
    ]);
    expect(archive.studies[0]?.readings[2]).toMatchObject({
      characteristic: "actuationForce",
      symbol: "cN",
      evidence: { file: "studies/crossed-1/readings.csv", firstLine: 4, lastLine: 4, columns: ["value", "symbol"] },
    });
  });
});

test("a session reads as its file says, with what it does not state as not recorded", () => {
  withArchive({}, (root) => {
    const [keystroke, latency] = readArchive(root).units[0]!.sessions;
    expect(keystroke).toMatchObject({
      folder: "units/u01/s1",
      files: ["force.csv"],
      firmware: "1.4",
      driver: "not recorded",
      software: "not recorded",
      connections: {},
      exclusions: [{ key: "KeyA", cycle: 2, reason: "The probe slipped" }],
    });
    expect(keystroke?.exclusions[0]?.evidence).toMatchObject({ firstLine: 14, columns: ["exclusions.0"] });
    expect(latency?.files).toEqual(["baseline.csv", "films.csv", "presses.csv"]);
    expect(latency?.connections["usb"]).toMatchObject({
      pollingSet: "1000 Hz",
      pollingMeasured: { value: 998, symbol: "Hz" },
      debounce: "not adjustable",
    });
    expect(latency?.refreshRate?.value).toBe(240);
  });
});

test("a limit names its characteristic as code does, its numbers, and whom it binds", () => {
  withArchive(
    { "lab.yaml": replacing("binds: each_key", "switch_kinds: [tactile, clicky]\n    binds: each_key") },
    (root) => {
      const { lab, units } = readArchive(root);
      expect(lab.limits[0]).toMatchObject({
        characteristic: "operatingForce",
        min: { value: 25, symbol: "cN" },
        max: { value: 150 },
        binds: "each_key",
        force: "limit",
        switchKinds: ["tactile", "clicky"],
        evidence: { firstLine: 20, columns: ["limits.0"] },
      });
      expect(units[0]?.limits[0]).toMatchObject({ nominal: { value: 45 }, pressSpeed: { value: 0.5, symbol: "mm/s" } });
      expect(units[0]?.limits[0]).not.toHaveProperty("switchKinds");
    },
  );
});

test("sessions, units and methods are ordered by code unit, so that s10 comes before s2", () => {
  const valid = validArchive();
  const files = {
    "units/u01/s10/session.yaml": valid["units/u01/s1/session.yaml"]!.replace("id: s1", "id: s10"),
    "units/u01/s10/force.csv": valid["units/u01/s1/force.csv"]!,
    "units/u10/unit.yaml": valid["units/u01/unit.yaml"]!.replace("id: u01", "id: u10"),
    "units/u2/unit.yaml": valid["units/u01/unit.yaml"]!.replace("id: u01", "id: u2"),
    "methods/keystroke-10.yaml": valid["methods/keystroke-1.yaml"]!.replace("keystroke@1", "keystroke@10"),
  };
  withArchive(files, (root) => {
    const archive = readArchive(root);
    expect(archive.problems).toEqual([]);
    expect(archive.units.map((unit) => unit.id)).toEqual(["u01", "u10", "u2"]);
    expect(archive.units[0]!.sessions.map((session) => session.id)).toEqual(["s1", "s10", "s2"]);
    expect([...archive.methods.keys()].slice(0, 3)).toEqual(["keystroke@1", "keystroke@10", "keystroke@2"]);
  });
});

test("descriptions are the same for line feeds and carriage returns with line feeds", () => {
  const crlf = (text: string): string => text.replaceAll("\n", "\r\n");
  withArchive({}, (plain) => {
    withArchive({ "lab.yaml": crlf, "units/u01/unit.yaml": crlf, "rigs/tester-1/checks.csv": crlf }, (root) => {
      const [a, b] = [readArchive(plain), readArchive(root)];
      expect(b.problems).toEqual([]);
      expect([b.lab, b.units, [...b.rigs]]).toEqual([a.lab, a.units, [...a.rigs]]);
    });
  });
});

test("every schema of a description is valid JSON Schema in Ajv's strict mode", () => {
  const ajv = new Ajv2020({ strict: true, strictRequired: false });
  ajv.addVocabulary(["form", "measures"]);
  for (const format of ["date", "date_or_not_recorded", "instant", "key_code", "characteristic"])
    ajv.addFormat(format, true);
  const schemas = [
    labSchema,
    ...Object.values(methodSchemas),
    anyMethodSchema,
    rigSchema,
    unitSchema,
    sessionSchema,
    studySchema,
  ];
  for (const schema of schemas) {
    expect(ajv.validateSchema(schema)).toBe(true);
    expect(() => ajv.compile(schema)).not.toThrow();
  }
});
