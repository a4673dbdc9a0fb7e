import { readFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, expect, test } from "vitest";
import { asMethod } from "../../src/build/as-method.js";
import { reduceSession } from "../../src/build/reduce-session.js";
import { changeSteps, keystrokeChange, movements } from "../../src/comparison/index.js";
import type { ChangeInputs, Movement } from "../../src/comparison/index.js";
import type { KeyCharacteristic, KeystrokeReduction } from "../../src/keystroke/index.js";
import { Quantity, expand } from "../../src/metrology/index.js";
import { readArchive } from "../../src/records/index.js";
import type { KeystrokeMethod } from "../../src/records/index.js";
import { present } from "./support.js";

interface Planted {
  readonly id: string;
  readonly where: { readonly unit?: string };
  readonly size?: { readonly value: number };
}
interface Truth {
  readonly keystroke: Readonly<
    Record<string, { readonly keys: Readonly<Record<string, { readonly values: Readonly<Record<string, number>> }>> }>
  >;
}
interface Row {
  readonly unit: string;
  readonly name: KeyCharacteristic;
  readonly inputs: ChangeInputs;
}

const root = new URL("../../", import.meta.url).pathname;
const planted = JSON.parse(readFileSync(join(root, "tests/truth/planted.json"), "utf8")) as readonly Planted[];
const truth = JSON.parse(readFileSync(join(root, "tests/truth/demo.json"), "utf8")) as Truth;
const sizeOf = (id: string): { readonly unit: string; readonly size: number } => {
  const found = planted.find((each) => each.id === id)!;
  return { unit: found.where.unit!, size: found.size!.value };
};
const force = sizeOf("moved-force");
const travel = sizeOf("moved-pre-travel");
const judged: readonly KeyCharacteristic[] = ["actuationForce", "preTravel", "operatingForce", "differentialTravel"];
const rows: Row[] = [];
let found: readonly Movement<Row>[] = [];

beforeAll(() => {
  const archive = readArchive(join(root, "data"));
  const [old, now] = ["keystroke@1", "keystroke@2"].map((id) => archive.methods.get(id) as KeystrokeMethod);
  for (const id of ["u01", "u03", "u08", force.unit, "u10", travel.unit]) {
    const unit = archive.units.find((each) => each.id === id)!;
    const reduced = (method: KeystrokeMethod, as: KeystrokeMethod): KeystrokeReduction => {
      const session = unit.sessions.find((each) => each.method === method.id)!;
      return reduceSession(archive, unit, session, as, null).reduction as KeystrokeReduction;
    };
    const sides = {
      before: reduced(old!, old!),
      beforeAnew: reduced(old!, asMethod(old!, now!)),
      after: reduced(now!, now!),
      alphabeticKeys: unit.alphabeticKeys,
    };
    for (const name of judged) rows.push({ unit: id, name, inputs: keystrokeChange(sides, name) });
  }
  found = movements(rows, ({ inputs }) => changeSteps(inputs).retest, {
    smallestChange: ({ name }) => {
      const margin = archive.lab.smallestChange[name];
      return margin === undefined ? undefined : new Quantity(margin.value, margin.symbol, [], margin.evidence);
    },
  });
});

const movementOf = (unit: string, name: KeyCharacteristic): Movement<Row> =>
  found.find(({ item }) => item.unit === unit && item.name === name)!;

test("the planted wear is found as moved, at its planted size", () => {
  const { verdict, change } = movementOf(force.unit, "actuationForce");
  expect(verdict.outcome).toBe("yes");
  expect(Math.abs(present(change).value - force.size)).toBeLessThan(expand(present(change)).U);
});

test("the planted later contact is found as moved, at its planted size", () => {
  const { verdict, change } = movementOf(travel.unit, "preTravel");
  expect(verdict.outcome).toBe("yes");
  expect(Math.abs(present(change).value - travel.size)).toBeLessThan(expand(present(change)).U + 0.01);
});

test("nothing else is claimed than what follows from the two: forces of the worn unit, force at the later contact", () => {
  const moved = found.filter(({ verdict }) => verdict.outcome === "yes").map(({ item }) => `${item.unit} ${item.name}`);
  expect(moved).toEqual([
    `${force.unit} actuationForce`,
    `${force.unit} operatingForce`,
    `${travel.unit} actuationForce`,
    `${travel.unit} preTravel`,
  ]);
});

test("every retest step holds the true change of KeyF within 1.2 U", () => {
  for (const { item, change } of found) {
    if (change.absent) continue;
    const at = (session: string): number =>
      truth.keystroke[`${item.unit}/${session}`]!.keys["KeyF"]!.values[item.name]!;
    expect(Math.abs(change.value - (at("s2") - at("s1"))), `${item.unit} ${item.name}`).toBeLessThan(
      1.2 * expand(change).U,
    );
  }
});

test("the steps of every unit add up to the change of its published value", () => {
  for (const { inputs } of rows) {
    const { reduction, retest, keys, total } = changeSteps(inputs);
    if (total.absent) continue;
    const sum = [reduction, retest, keys].reduce((s, step) => s + present(step).value, 0);
    expect(present(total).value).toBe(sum);
    expect(sum).toBeCloseTo(present(inputs.publishedAnew).value - present(inputs.published).value, 10);
  }
});
