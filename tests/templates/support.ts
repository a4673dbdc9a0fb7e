import { existsSync, readFileSync, readdirSync, statSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { Compilation, TemplateCompiler } from "../../src/templates/compile/compile-template.js";
import { openTemplateCompiler } from "../../src/templates/compile/compile-template.js";
import type { TemplateProblem } from "../../src/templates/outcome.js";
import { renderTemplateProblem } from "../../src/templates/render-template-problem.js";
import { standInModules, standInPrelude } from "../fixtures/templates/stand-in/modules.mjs";

const folder = (path: string): string => fileURLToPath(new URL(`../../${path}`, import.meta.url));

export const fixtures = folder("tests/fixtures/templates/");
export const standInFolder = `${fixtures}stand-in`;

/** Compiled code is what the checker's declarations and the sealed child come from. */
export function demandBuild(): void {
  const sources = readdirSync(folder("src/templates"), { recursive: true, encoding: "utf8" });
  for (const source of sources.filter((name) => name.endsWith(".ts") && !name.startsWith("subject"))) {
    const compiled = folder(`dist/templates/${source.replace(/\.ts$/, ".js")}`);
    if (!existsSync(compiled) || statSync(compiled).mtimeMs < statSync(folder(`src/templates/${source}`)).mtimeMs) {
      throw new Error(`dist/templates is older than src/templates/${source}: run npm run build first`);
    }
  }
}

export function openStandInCompiler(): TemplateCompiler {
  demandBuild();
  return openTemplateCompiler({ modules: standInModules, prelude: standInPrelude });
}

/** Three lines of front matter, so that the first line of the body is line 4 of the file. */
export function withFrontMatter(body: string): string {
  return body.startsWith("---") ? body : `---\nsubject: unit\n---\n${body}`;
}

export function compileBody(compiler: TemplateCompiler, body: string): Compilation {
  return compiler.compile(withFrontMatter(body), "t.md");
}

export function printProblems(problems: readonly TemplateProblem[], source: string): string {
  return problems.map((problem) => renderTemplateProblem(problem, source)).join("\n");
}

export interface Case {
  readonly title: string;
  readonly template: string;
  readonly expected: string;
}

/** Cases of a fixture file: `=== title`, the template, `--- expect`, the expected text. */
export function readCases(name: string): readonly Case[] {
  const text = readFileSync(`${fixtures}${name}`, "utf8");
  return text
    .split(/^=== /m)
    .slice(1)
    .map((section) => {
      const [head = "", expected = ""] = section.split(/^--- expect\n/m);
      const at = head.indexOf("\n");
      return { title: head.slice(0, at), template: withFrontMatter(head.slice(at + 1)), expected: expected.trimEnd() };
    });
}
