import { readFileSync } from "node:fs";
import { expect, test } from "vitest";

interface Mark {
  readonly touch: number;
  readonly peak: number | null;
  readonly valley: number | null;
  readonly bottomOut: number | null;
}

const marks = (
  JSON.parse(readFileSync(new URL("by-eye/marks.json", import.meta.url), "utf8")) as {
    marks: Record<string, readonly [Mark, Mark]>;
  }
).marks;

test("the marks by eye hold 24 curves, twice each, in the order in which a press passes them", () => {
  expect(Object.keys(marks)).toHaveLength(24);
  for (const pair of Object.values(marks)) {
    expect(pair).toHaveLength(2);
    for (const { touch, peak, valley, bottomOut } of pair) {
      const places = [touch, peak, valley, bottomOut].filter((place) => place !== null);
      expect([...places].sort((a, b) => a - b)).toEqual(places);
      expect(peak === null).toBe(valley === null);
    }
  }
});
