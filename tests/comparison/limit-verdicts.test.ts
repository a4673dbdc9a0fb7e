import { expect, test } from "vitest";
import { limitVerdicts } from "../../src/comparison/index.js";
import type { JudgedLimit } from "../../src/comparison/index.js";
import { Count } from "../../src/metrology/index.js";
import { absent, own, quantity } from "./support.js";
import { syntheticKey } from "./synthetic-keys.js";

const limit = (changed: Partial<JudgedLimit> = {}): JudgedLimit => ({
  characteristic: "actuationForce",
  min: quantity(35),
  max: quantity(55),
  binds: "each_key",
  force: "limit",
  source: "Data sheet, revision 3",
  ...changed,
});
const key = (name: string, force: number): ReturnType<typeof syntheticKey> =>
  syntheticKey("u01/s2", name, [force - 0.1, force, force + 0.1]);
const options = { alphabeticKeys: new Count(26), meanOf: () => own("mean", 45, 1) };

test("the unit conforms only if every measured key does, each by its own uncertainty", () => {
  const inside = limitVerdicts(limit(), [key("KeyA", 45), key("KeyF", 50)], options);
  expect(inside.unit!.outcome).toBe("yes");
  expect(inside.unit!.statement).toContain("2 of 26 keys measured");
  expect(limitVerdicts(limit(), [key("KeyA", 45), key("KeyF", 60)], options).unit!.outcome).toBe("no");
  expect(limitVerdicts(limit(), [key("KeyA", 45), key("KeyF", 54.9)], options).unit!.outcome).toBe("undecided");
});

test("a limit that binds the mean is held against the mean alone", () => {
  const found = limitVerdicts(limit({ binds: "mean" }), [key("KeyA", 60)], options);
  expect(found.keys).toEqual([]);
  expect(found.unit!.outcome).toBe("yes");
});

test("a typical value is shown and not judged", () => {
  const found = limitVerdicts(limit({ force: "typical" }), [key("KeyA", 60)], options);
  expect(found.unit).toBeNull();
  expect(found.notes).toEqual(["A typical value: shown, not judged."]);
});

test("linear keys have no operating force, so their actuation force is compared and it is said so", () => {
  const found = limitVerdicts(limit({ characteristic: "operatingForce" }), [key("KeyA", 45)], options);
  expect(found.compared).toBe("actuationForce");
  expect(found.notes[0]).toContain("stands in for the operating force");
});

test("another press speed than the limit's is named", () => {
  const found = limitVerdicts(limit({ pressSpeed: quantity(1, [], "mm/s") }), [key("KeyA", 45)], {
    ...options,
    pressSpeed: 0.5,
  });
  expect(found.notes).toEqual(["The limit is stated at 1 mm/s, the keys were pressed at 0.5 mm/s."]);
  expect(
    limitVerdicts(limit({ pressSpeed: quantity(0.5, [], "mm/s") }), [], { ...options, pressSpeed: 0.505 }).notes,
  ).toEqual([]);
});

test("without a value the verdict is undecided with the reason, and an unknown characteristic is refused", () => {
  const none = { ...key("KeyA", 45), actuationForce: absent("no contact was recorded") };
  expect(limitVerdicts(limit(), [none], options).unit!.statement).toContain("no contact was recorded");
  expect(() => limitVerdicts(limit({ characteristic: "colour" }), [key("KeyA", 45)], options)).toThrow(
    /no characteristic "colour"/,
  );
});
