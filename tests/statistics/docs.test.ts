import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import type { Agreement } from "../../tools/statistics-docs/agreement.js";
import { measureAgreement } from "../../tools/statistics-docs/agreement.js";
import { renderPage } from "../../tools/statistics-docs/page.js";
import { readProcedures } from "../../tools/statistics-docs/procedures.js";
import { checks, withoutPublished } from "./checks/index.js";

const read = (path: string): string => readFileSync(new URL(path, import.meta.url), "utf8");
const stored = JSON.parse(read("../reference/statistics-agreement.json")) as Agreement[];

test("docs/statistics.md is what the docstrings and the stored results give", () => {
  // Mended by: npx tsx tools/statistics-docs/main.ts --measure
  expect(read("../../docs/statistics.md")).toBe(renderPage(readProcedures(), stored, withoutPublished));
});

test("the stored digits are reached again, to within one", () => {
  const now = measureAgreement(checks);
  expect(now.map(({ kernel, kind, values }) => [kernel, kind, values])).toEqual(
    stored.map(({ kernel, kind, values }) => [kernel, kind, values]),
  );
  now.forEach((entry, i) => expect(entry.digits, entry.kernel).toBeGreaterThanOrEqual(stored[i]!.digits - 1));
});
