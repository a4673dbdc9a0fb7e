import { expect, test } from "vitest";
import {
  checkArchive,
  compareText,
  problemCatalogue,
  problemCodes,
  readSourceLines,
  renderProblem,
} from "../../src/records/index.js";
import { fileWordings } from "../../src/records/wording/files.js";
import { latencyWordings } from "../../src/records/wording/latency.js";
import { relationWordings } from "../../src/records/wording/relations.js";
import { tableWordings } from "../../src/records/wording/tables.js";
import { yamlWordings } from "../../src/records/wording/yaml.js";
import { withArchive } from "./make-archive.js";
import { problemCases } from "./problem-cases.js";
import { specialCodes } from "./special-codes.js";

for (const { title, files, problems, says = [] } of problemCases) {
  test(title, () => {
    withArchive(files, (root) => {
      const found = checkArchive(root).problems;
      expect(found.map((p) => `${p.code} ${p.file}:${p.line}:${p.column}`)).toEqual(problems);
      const printed = found.map((p) => renderProblem(p, readSourceLines(root, p.file))).join("\n");
      for (const part of says) expect(printed).toContain(part);
      for (const problem of found) {
        expect(problem.hint).not.toMatch(/\{(found|expected)\}|undefined/);
        expect(problem.severity).toBe(problem.code.startsWith("E_") ? "error" : "warning");
        expect(problem.length).toBeGreaterThanOrEqual(1);
      }
    });
  });
}

test("the valid archive has no problem at all", () => {
  withArchive({}, (root) => {
    expect(checkArchive(root).problems).toEqual([]);
  });
});

test("every code has a case here or a test of its own", () => {
  const covered = new Set([
    ...problemCases.flatMap((each) => each.problems.map((p) => p.split(" ")[0])),
    ...specialCodes,
  ]);
  expect(problemCodes.filter((code) => !covered.has(code))).toEqual([]);
});

test("nothing is worded that no code names", () => {
  const worded = [fileWordings, yamlWordings, relationWordings, tableWordings, latencyWordings].flatMap(Object.keys);
  expect([...worded].sort(compareText)).toEqual([...problemCodes].sort(compareText));
});

test("every code is explained once, in the order of the stages", () => {
  expect(problemCatalogue.map((each) => each.code)).toEqual(problemCodes);
  expect(new Set(problemCodes).size).toBe(problemCodes.length);
  for (const { explanation, hint } of problemCatalogue) {
    expect(explanation).toMatch(/^[^\n]+\.$/);
    expect(hint).not.toBe("");
  }
});
