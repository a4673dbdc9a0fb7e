import { readFileSync, readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { openTemplateCompiler } from "../../src/templates/compile/compile-template.js";
import { prelude } from "../../src/templates/prelude.js";
import { templateModules } from "../../src/templates/template-modules.js";
import { demandBuild, printProblems } from "./support.js";

const root = fileURLToPath(new URL("../../", import.meta.url));

function textOf(folder: string, ending: RegExp): string {
  return readdirSync(`${root}${folder}`, { recursive: true, encoding: "utf8" })
    .filter((name) => ending.test(name))
    .map((name) => readFileSync(`${root}${folder}/${name}`, "utf8"))
    .join("\n");
}

const page = readFileSync(`${root}docs/templates.md`, "utf8");
const codesIn = (text: string): readonly string[] => [...new Set(text.match(/\bE_[A-Z_]+[A-Z]\b/g))].sort();
const codes = codesIn(textOf("src/templates", /wording\.ts$/));

test("every problem code has a line in the docs, and every code in the docs exists", () => {
  expect(codesIn(page)).toEqual(codes);
});

test("every problem code has a test", () => {
  const tested = new Set(codesIn(textOf("tests/templates", /\.test\.ts$/) + textOf("tests/fixtures/templates", /\.txt$/)));
  expect(codes.filter((code) => !tested.has(code))).toEqual([]);
});

test("the docs' examples have no problem", () => {
  demandBuild();
  const compiler = openTemplateCompiler();
  const examples = [...page.matchAll(/^````markdown\n([^]*?)^````$/gm)].map((match) => match[1]!);
  expect(examples.length).toBeGreaterThan(0);
  for (const example of examples) {
    expect(printProblems(compiler.compile(example, "docs/templates.md").problems, example)).toBe("");
  }
});

test("the docs name every word in scope, every subject's names and every module", () => {
  for (const name of Object.values(prelude.words).flat()) expect(page).toContain(`\`${name}\``);
  for (const [subject, { names }] of Object.entries(prelude.subjects)) {
    expect(page).toContain(`| \`${subject}\` | ${names.map((name) => `\`${name}\``).join(", ")} |`);
  }
  for (const specifier of Object.keys(templateModules())) {
    if (specifier.startsWith("benchfolio/subject/")) continue;
    expect(page).toContain(`\`${specifier.replace(/^benchfolio(?!\/keystroke)/, "")}\``);
  }
});
