import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { renderProblemDocs } from "../../tools/problem-docs/render-problem-docs.js";
import { repository } from "../cli/run-benchfolio.js";

test("docs/problems.md lists every code as the code words it (npm run problem-docs)", () => {
  expect(readFileSync(`${repository}docs/problems.md`, "utf8")).toBe(renderProblemDocs());
});
