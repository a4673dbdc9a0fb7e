import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { ReceiptProblems } from "../../../src/build/receive/problem.js";
import { readColumnsText } from "../../../src/build/receive/read-columns.js";
import { receiptWordings } from "../../../src/build/receive/wording.js";
import { sourceText } from "../../../src/records/source-text.js";

const page = readFileSync(fileURLToPath(new URL("../../../docs/receive.md", import.meta.url)), "utf8");

test("the page lists every code of receipt with its words, and no other", () => {
  const listed = [...page.matchAll(/^\| `(E_[A-Z_]+)` \| (.*) \| (.*) \|$/gm)].map(([, ...cells]) => cells);
  const known = Object.entries(receiptWordings).map(([code, { explanation, hint }]) => [code, explanation, hint]);
  expect(listed).toEqual(known);
});

test("every columns file on the page fits its schema", () => {
  const examples = [...page.matchAll(/^```yaml\n([\s\S]*?)^```$/gm)].map((match) => match[1]!);
  expect(examples).toHaveLength(3);
  for (const example of examples) {
    const problems = new ReceiptProblems();
    expect(readColumnsText(sourceText("columns.yaml", example), problems)?.fields.length).toBeGreaterThan(3);
    expect(problems.list()).toEqual([]);
  }
});
