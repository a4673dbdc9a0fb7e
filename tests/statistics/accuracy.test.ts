import { expect, test } from "vitest";
import { accuracyLines } from "../../tools/accuracy/sets.js";

test("every certified value of the StRD sets is reached within one digit of the ceiling, 13 where it is higher", () => {
  const lines = accuracyLines();
  expect(lines.length).toBeGreaterThan(90);
  expect(lines.filter((line) => !line.passes)).toEqual([]);
});

test("the ceiling is that of the data: NumAcc3's sd and AtmWtAg's F cannot pass 9.5 and 10.2 digits", () => {
  const ceiling = (set: string, value: string) =>
    accuracyLines().find((line) => line.set === set && line.value === value)!.ceiling;
  expect(ceiling("NumAcc3", "standardDeviation")).toBeCloseTo(9.5, 1);
  expect(ceiling("AtmWtAg", "F")).toBeCloseTo(10.2, 1);
});
