import { expect, test } from "vitest";
import * as statistics from "../../src/statistics/index.js";
import { checks, withoutPublished } from "./checks/index.js";

const kernels = Object.keys(statistics).filter((name) => name.endsWith("Kernel"));

test("every kernel is checked against another program", () => {
  const checked = new Set(checks.filter((check) => check.kind === "computed").map((check) => check.procedure));
  expect(kernels.filter((kernel) => !checked.has(kernel))).toEqual([]);
});

test("every kernel is checked against a published value, or the independent computation in its place is named", () => {
  const published = new Set(checks.filter((check) => check.kind === "published").map((check) => check.procedure));
  expect(kernels.filter((kernel) => !published.has(kernel) && !(kernel in withoutPublished))).toEqual([]);
  expect(Object.keys(withoutPublished).filter((kernel) => published.has(kernel) || !kernels.includes(kernel))).toEqual(
    [],
  );
});

test("every check names a kernel that is exported", () => {
  const names = new Set(Object.keys(statistics));
  expect(checks.filter((check) => !names.has(check.procedure)).map((check) => check.procedure)).toEqual([]);
});
