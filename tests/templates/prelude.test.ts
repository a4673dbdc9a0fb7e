import { expect, test } from "vitest";
import { openTemplateCompiler } from "../../src/templates/compile/compile-template.js";
import { prelude } from "../../src/templates/prelude.js";
import { subjects } from "../../src/templates/subjects.js";
import { loadTemplateModules, templateModules } from "../../src/templates/template-modules.js";
import { demandBuild } from "./support.js";

test("every subject has a scope, and every word and name in it is declared by its module", () => {
  demandBuild();
  const compiler = openTemplateCompiler();
  expect(Object.keys(prelude.subjects)).toEqual([...subjects]);
  for (const subject of subjects) {
    // A name that its module does not declare makes the compiler throw.
    const { problems, compiled } = compiler.compile(`---\nsubject: ${subject}\n---\n# [= lab.name =]\n`, "t.md");
    expect(problems).toEqual([]);
    expect(compiled!.scopeNames).toEqual(["lab"]);
  }
});

test("every word is exported by its module at run time too", async () => {
  const loaded = await loadTemplateModules(templateModules(), Object.keys(prelude.words));
  for (const [specifier, names] of Object.entries(prelude.words)) {
    for (const name of names) expect(loaded[specifier]![name], `${name} of ${specifier}`).toBeTypeOf("function");
  }
});

test("no name is given twice", () => {
  const words = Object.values(prelude.words).flat();
  for (const { names } of Object.values(prelude.subjects)) {
    const all = [...words, ...names, "see"];
    expect(new Set(all).size).toBe(all.length);
  }
});
