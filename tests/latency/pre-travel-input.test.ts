import { expect, test } from "vitest";
import { Absent } from "../../src/metrology/quantity.js";
import type { Measured, Quantity } from "../../src/metrology/quantity.js";
import { choosePreTravel } from "../../src/latency/pre-travel-input.js";
import type { Limit } from "../../src/records/archive.js";
import { preTravelOf, rows, stated } from "./records.js";

const dataSheet: Limit = {
  characteristic: "preTravel",
  nominal: stated(2, "mm"),
  min: stated(1.6, "mm"),
  max: stated(2.6, "mm"),
  binds: "each_key",
  force: "limit",
  source: "Data sheet, revision 3",
  evidence: rows("unit.yaml", 20),
};

function without(name: keyof Limit): Limit {
  return Object.fromEntries(Object.entries(dataSheet).filter(([key]) => key !== name)) as unknown as Limit;
}

function present(measured: Measured<"mm">): Quantity<"mm"> {
  if (measured.absent) throw new Error(measured.reason);
  return measured;
}

test("the pressed key's own pre-travel goes first, as it is", () => {
  const own = preTravelOf("KeyF", 1.9);
  const chosen = choosePreTravel("KeyF", { KeyF: own, KeyA: preTravelOf("KeyA", 2.1) }, { unit: "u07", dataSheet });
  expect(chosen).toEqual({ preTravel: own, of: "pressed_key" });
});

test("else the mean of the others, with s sqrt(1 + 1/n) and n - 1 degrees of freedom beside what they share", () => {
  const others = { KeyA: preTravelOf("KeyA", 1.9), KeyE: preTravelOf("KeyE", 2.0), KeyI: preTravelOf("KeyI", 2.1) };
  const chosen = choosePreTravel("KeyF", others, { unit: "u07", dataSheet });
  expect(chosen.of).toBe("mean_of_other_keys");
  const value = present(chosen.preTravel);
  expect(value.value).toBeCloseTo(2, 12);
  const own = value.components.find((component) => component.source.type === "A")!;
  expect(own.contribution).toBeCloseTo(0.1 * Math.sqrt(4 / 3), 12);
  expect(own.source.dof).toBe(2);
  expect(value.components.map((component) => component.source.label)).toEqual([
    "Displacement scale of the tester",
    "Pre-travel of the pressed key against the mean of the others",
  ]);
  expect(value.components[0]!.contribution).toBeCloseTo(0.002, 12);
});

test("an absent own pre-travel counts as not measured", () => {
  const measured = { KeyF: new Absent("mm", "no contact"), KeyA: preTravelOf("KeyA"), KeyE: preTravelOf("KeyE") };
  expect(choosePreTravel("KeyF", measured, { unit: "u07" }).of).toBe("mean_of_other_keys");
});

test("else the data sheet: nominal value, rectangular as wide as its farther limit", () => {
  const chosen = choosePreTravel("KeyF", { KeyA: preTravelOf("KeyA") }, { unit: "u07", dataSheet });
  expect(chosen.of).toBe("data_sheet");
  const value = present(chosen.preTravel);
  expect(value.value).toBe(2);
  expect(value.u).toBeCloseTo(0.6 / Math.sqrt(3), 12);
  expect(
    present(choosePreTravel("KeyF", {}, { unit: "u07", dataSheet: without("nominal") }).preTravel).value,
  ).toBeCloseTo(2.1, 12);
});

test("with nothing to go by it is absent, and says what was sought", () => {
  for (const limit of [undefined, without("min")]) {
    const { preTravel } = choosePreTravel("KeyF", {}, { unit: "u07", dataSheet: limit });
    expect(preTravel.absent && preTravel.reason).toBe(
      "the pre-travel of KeyF was not measured, nor that of two other keys, and no data sheet bounds it on both sides",
    );
  }
});
