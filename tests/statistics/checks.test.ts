import { expect, test } from "vitest";
import { checks } from "./checks/index.js";

for (const check of checks) {
  test(`${check.procedure} agrees with ${check.source} (${check.kind})`, () => {
    const compared = check.compare();
    for (const { name, got, want, tolerance } of compared) {
      expect(Math.abs(got - want) <= tolerance, `${name} is ${want} (± ${tolerance}), got ${got}`).toBe(true);
    }
  });
}
