import { readFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, expect, test } from "vitest";
import type { KeyCharacteristic, KeystrokeReduction } from "../../src/keystroke/index.js";
import { calibrationInForce, reduceKeystroke, reductionContext } from "../../src/keystroke/index.js";
import { choosePreTravel, reduceLatency } from "../../src/latency/index.js";
import type { KeystrokeMethod, LatencyMethod } from "../../src/records/index.js";
import { readArchive, readLatency, readStrokes } from "../../src/records/index.js";

interface KeyTruth {
  readonly values: Readonly<Record<KeyCharacteristic, number | null>>;
  readonly slopes: Readonly<Partial<Record<KeyCharacteristic, number>>>;
}
interface Truth {
  readonly keystroke: Readonly<Record<string, { readonly keys: Readonly<Record<string, KeyTruth>> }>>;
  readonly latency: Readonly<
    Record<string, { readonly latencyMs: number; readonly sigmaMs: number; readonly valid: number }>
  >;
}

const root = new URL("../../", import.meta.url).pathname;
const truth = JSON.parse(readFileSync(join(root, "tests/truth/demo.json"), "utf8")) as Truth;
const archive = readArchive(join(root, "data"));
const stepMm = 0.01;

/** Error of one result and what it may be. */
interface Miss {
  readonly where: string;
  readonly error: number;
  readonly allowed: number;
}

const misses = new Map<string, Miss[]>();
const note = (name: string, miss: Miss): void => void misses.set(name, [...(misses.get(name) ?? []), miss]);
const worst = (name: string): Miss =>
  misses.get(name)!.reduce((a, b) => (Math.abs(b.error) / b.allowed > Math.abs(a.error) / a.allowed ? b : a));
const wrong: string[] = [];

beforeAll(() => {
  for (const unit of archive.units) {
    let newest: KeystrokeReduction | null = null;
    for (const session of unit.sessions) {
      const method = archive.methods.get(session.method)!;
      const rig = archive.rigs.get(session.rig)!;
      if (method.kind === "keystroke") {
        const { strokes } = readStrokes(archive, session);
        newest = reduceKeystroke(strokes, reductionContext(unit, session, method as KeystrokeMethod, rig));
        compareKeys(`${unit.id}/${session.id}`, newest);
      } else if (method.kind === "latency" && method.observes === "film") {
        const { readings } = readLatency(archive, session);
        const measured = Object.fromEntries((newest?.keys ?? []).map((key) => [key.key, key.preTravel]));
        const key = readings.presses[0]!.key;
        const { connections } = reduceLatency(readings, {
          unit: unit.id,
          session: session.id,
          method: method as LatencyMethod,
          rig: { id: rig.id, calibration: calibrationInForce(rig, session.start) },
          settings: session.connections,
          refreshRate: session.refreshRate,
          pressInterval: session.pressInterval,
          pressIntervalJitter: session.pressIntervalJitter,
          nominalPlungerSpeed: session.pressSpeed,
          preTravel: { [key]: choosePreTravel(key, measured, { unit: unit.id }) },
        });
        for (const c of connections) {
          const expected = truth.latency[`${unit.id}/${session.id}/${c.connection}`]!;
          if (c.latency.absent) wrong.push(`${unit.id}/${session.id}/${c.connection}: ${c.latency.reason}`);
          else {
            const allowed = 1 + (3 * expected.sigmaMs) / Math.sqrt(expected.valid);
            const where = `${unit.id}/${session.id}/${c.connection}`;
            note("latency", { where, error: c.latency.value - expected.latencyMs, allowed });
          }
        }
      }
    }
  }
});

function compareKeys(session: string, reduction: KeystrokeReduction): void {
  for (const key of reduction.keys) {
    const expected = truth.keystroke[session]!.keys[key.key]!;
    const where = `${session}/${key.key}`;
    for (const [name, value] of Object.entries(expected.values) as [KeyCharacteristic, number | null][]) {
      const found = key[name];
      if (found.absent !== (value === null)) wrong.push(`${where} ${name}: ${found.absent ? found.reason : "given"}`);
      if (found.absent || value === null) continue;
      const error = found.value - value;
      if (found.symbol === "mm" && name === "preTravel") note(name, { where, error, allowed: 0.02 + stepMm });
      if (found.symbol === "cN") note(name, { where, error, allowed: 1 + (expected.slopes[name] ?? 0) * 0.02 });
    }
  }
}

test("every result that has a truth is given, and no other", () => {
  expect(wrong).toEqual([]);
});

test.each([
  "preTravel",
  "actuationForce",
  "operatingForce",
  "peakForce",
  "valleyForce",
  "resetForce",
  "bottomOutForce",
  "latency",
])("the truth of %s is recovered", (name) => {
  const { where, error, allowed } = worst(name);
  const unit = name === "latency" ? "ms" : name === "preTravel" ? "mm" : "cN";
  console.log(
    `${name}: worst of ${misses.get(name)!.length} is ${error.toFixed(4)} ${unit} at ${where}, ${allowed.toFixed(4)} allowed`,
  );
  expect(Math.abs(error)).toBeLessThanOrEqual(allowed);
});
