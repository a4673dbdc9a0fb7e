import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { openTemplateCompiler } from "../../src/templates/compile/compile-template.js";
import { demandBuild, printProblems } from "./support.js";

/** Whole templates that a document shows: fences of four backticks that begin with front matter. */
function examples(name: string): readonly string[] {
  const text = readFileSync(fileURLToPath(new URL(`../../${name}`, import.meta.url)), "utf8");
  return [...text.matchAll(/^````markdown\n(---\n[\s\S]*?)^````$/gm)].map((match) => match[1]!);
}

test.each(["README.md", "docs/templates.md"])("the templates that %s shows are without problems", (name) => {
  demandBuild();
  const compiler = openTemplateCompiler();
  expect(examples(name).length).toBeGreaterThan(0);
  for (const source of examples(name)) {
    const { compiled, problems } = compiler.compile(source, name);
    expect(printProblems(problems, source)).toBe("");
    expect(compiled?.cells.length).toBeGreaterThan(1);
  }
});
