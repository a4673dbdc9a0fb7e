import fc from "fast-check";
import { expect, test } from "vitest";
import { openTemplateCompiler } from "../../src/templates/compile/compile-template.js";
import { programText } from "../../src/templates/compiled.js";
import { standInModules } from "../fixtures/templates/stand-in/modules.mjs";
import { compileBody, openStandInCompiler, printProblems, readCases, withFrontMatter } from "./support.js";

const compiler = openStandInCompiler();

for (const { title, template, expected } of readCases("check.txt")) {
  test(title, () => {
    expect(printProblems(compiler.compile(template, "t.md").problems, template)).toBe(expected);
  });
}

test("places are the same whether lines end with LF or CRLF", () => {
  for (const { template } of readCases("check.txt").slice(0, 12)) {
    const plain = compiler.compile(template, "t.md").problems;
    expect(compiler.compile(template.replaceAll("\n", "\r\n"), "t.md").problems).toEqual(plain);
  }
});

test("a compiled template names what each slot needs, and nothing that is shadowed", () => {
  const { compiled, problems } = compileBody(
    compiler,
    `\`\`\`ts work
import { mean as average } from "benchfolio/statistics";
import type { Quantity } from "benchfolio/metrology";
const keys = unit.keys;
const { length, ...rest } = { length: 3, other: 4 };
type Named = { name: string };
\`\`\`
\`\`\`ts work
const force: Quantity<"cN"> = average(keys, (key) => key.actuationForce);
\`\`\`
\`\`\`ts criterion c: C
const counted = [1].map((keys) => keys + 1);
const named: Named = { name: String(Math.max(length)) };
return atLeast(count(counted), see.length);
\`\`\`
[= force =] [= String(rest.other) =]
`,
  );
  expect(problems).toEqual([]);
  const names = compiled!.cells.map(({ names: free }) => free.map(({ name, source }) => `${source} ${name}`));
  expect(names).toEqual([
    ["scope unit"],
    ["import average", "work keys"],
    ["builtin String", "builtin Math", "work length", "word atLeast", "word count", "see see"],
  ]);
  expect(compiled!.cells.map(({ declares }) => declares)).toEqual([["keys", "length", "rest"], ["force"], []]);
  expect(compiled!.cells.map(({ workCells }) => workCells)).toEqual([[], [0], [0]]);
  expect(compiled!.inlines.map(({ workCells }) => workCells)).toEqual([[0, 1], [0]]);
  expect(compiled!.modules).toEqual(["benchfolio/statistics", "benchfolio/words"]);
  expect(compiled!.scopeNames).toEqual(["unit"]);
});

test("a compiled template is plain data", () => {
  const { compiled } = compileBody(compiler, "[= unit.name =]\n```ts work\nconst a = 1;\n```\n");
  expect(JSON.parse(JSON.stringify(compiled))).toEqual(compiled);
});

test("the program of a slot has the template's lines and columns, and no character of a type", () => {
  const source = withFrontMatter(
    "Of [= unit.name as string =]\n```ts work\nimport { mean } from 'd3-array';\nconst a: number = 1, b = a as number; // note\n```\n",
  );
  const { compiled } = compiler.compile(source, "t.md");
  const lines = source.split("\n");
  for (const slot of [...compiled!.cells, ...compiled!.inlines]) {
    const program = programText(slot).split("\n");
    slot.code.split("\n").forEach((code, index) => {
      const line = slot.line + index - 1;
      const column = index === 0 ? slot.column - 1 : 0;
      for (const [at, char] of [...code].entries()) {
        if (char !== " ") expect(lines[line]!.slice(column + at, column + at + 1)).toBe(char);
      }
      expect(program[line]!.slice(column, column + code.length)).toBe(code);
    });
  }
  expect(compiled!.cells[0]!.code.split("\n")).toEqual([" ".repeat(32), `const a${" ".repeat(8)} = 1, b = a${" ".repeat(10)};${" ".repeat(8)}`]);
  expect(compiled!.inlines[0]!.code.trimEnd()).toBe("unit.name");
});

test("a slot with a problem carries it, and the template can still be run", () => {
  const { compiled, problems } = compileBody(compiler, "[= unt =] [= unit.name =]\n```ts work\nconst a = ;\n```\n");
  expect(problems.map(({ code }) => code)).toEqual(["E_UNKNOWN_NAME", "E_SYNTAX"]);
  expect(compiled!.inlines.map(({ problem }) => problem?.code ?? null)).toEqual(["E_UNKNOWN_NAME", null]);
  expect(compiled!.cells[0]!.problem?.code).toBe("E_SYNTAX");
});

test("a subject that has no scope is refused at its line", () => {
  const { compiled, problems } = compiler.compile("---\ndescription: x\nsubject: rig\n---\n# T\n", "t.md");
  expect(compiled).toBeNull();
  expect(problems).toMatchObject([
    { code: "E_SUBJECT", line: 3, column: 1, length: 12, hint: "use one of unit" },
  ]);
});

test("a fault of the prelude is a fault of the tool, and is thrown", () => {
  const broken = openTemplateCompiler({
    modules: standInModules,
    prelude: {
      words: { "benchfolio/statistics": ["noSuchWord"] },
      subjects: { unit: { module: "benchfolio/subject/unit", type: "UnitScope", names: ["unit"] } },
    },
  });
  expect(() => compileBody(broken, "# T\n")).toThrow(/the prelude does not check:[^]*noSuchWord/);
});

test("code that nests too deeply to be followed is refused, not fallen over", () => {
  for (const code of [
    `const a = ${"(".repeat(20_000)}1${")".repeat(20_000)};`,
    `const a = ${"1 + ".repeat(20_000)}1;`,
    `${"if (unit) {".repeat(600)}${"}".repeat(600)}`,
  ]) {
    const { problems } = compileBody(compiler, `\`\`\`ts work\n${code}\n\`\`\`\n[= unt =]\n`);
    expect(problems.map(({ code: found, message }) => `${found} ${message}`)).toEqual([
      "E_SYNTAX the code nests too deeply to be followed",
      'E_UNKNOWN_NAME the name "unt" is not known here',
    ]);
  }
});

test("what one template declares is not known in the next", () => {
  expect(compileBody(compiler, "```ts work\nconst mine = unit.name;\n```\n").problems).toEqual([]);
  expect(compileBody(compiler, "[= mine =]\n").problems.map(({ code }) => code)).toEqual(["E_UNKNOWN_NAME"]);
});

/** Bodies of cells, right and wrong, out of which templates are put together. */
const snippet = fc.constantFrom(
  "const a = unit.keys;",
  "const b = a.map((key) => key.kee);",
  "let c = 1;",
  "return unit.keys;",
  "return atLeast(count(unit.keys), 3);",
  "} function x() {",
  "const t = `${unit.nominal}`;",
  "await 1;",
  "const é: number = '🎹';",
  "",
  "\tconst tab = unit.nmae;",
  "if (unit) { return; }",
  "import { mean } from 'benchfolio/statistics';",
  "type T = string; const u: T = 3;",
);
const part = fc.oneof(
  fc
    .tuple(fc.constantFrom("work", "figure f", "table t: T", "criterion c"), fc.array(snippet, { minLength: 1, maxLength: 3 }))
    .map(([head, body]) => `\`\`\`ts ${head}\n${body.join("\n")}\n\`\`\``),
  fc
    .array(fc.constantFrom("[= unit.name =]", "[= 3 =]", "[= unt.x =]", "é🎹", "[= a) + (b =]", "[= unit.nominal / 2 =]"), { maxLength: 4 })
    .map((words) => words.join(" ")),
  fc.constantFrom("# Title", "- list\n- [= count(unit.keys) =]", "| a |\n|--|\n| [= unit.keyz =] |"),
);

test("every problem of a check lies inside a cell, its fence or an inline value", () => {
  fc.assert(
    fc.property(fc.array(part, { maxLength: 5 }), (parts) => {
      const { parsed, problems, compiled } = compileBody(compiler, parts.join("\n\n"));
      const { lines, cells, inlines } = parsed;
      for (const { line, column, length } of problems) {
        const cell = cells.find(({ fenceLine, lastLine }) => line >= fenceLine && line <= lastLine);
        const inline = inlines.find(
          (each) => each.line === line && column >= each.column - 3 && column + length <= each.column + each.source.length + 3,
        );
        expect(cell ?? inline).toBeDefined();
        expect(column).toBeLessThanOrEqual(lines[line - 1]!.length + 1);
      }
      expect(compiled!.cells).toHaveLength(cells.length);
      expect(compiled!.inlines).toHaveLength(inlines.length);
    }),
    { seed: 20260302, numRuns: 30 },
  );
});

test("no code in a cell makes the check throw", () => {
  const token = fc.constantFrom(
    ..."{ } ( ) [ ] < > => = ; : , . ?. ?? ! ... const let function class type enum return if for await async import export \"a\" 'b' `c` ${ / // /* */ unit see( 1 n é @x <!-- --> \n".split(" "),
  );
  fc.assert(
    fc.property(fc.constantFrom("work", "figure f", "criterion c"), fc.array(token, { maxLength: 12 }), (head, tokens) => {
      const { problems } = compileBody(compiler, `\`\`\`ts ${head}\n${tokens.join(" ")}\n\`\`\`\n[= ${tokens.slice(0, 4).join(" ")} =]`);
      for (const { message, hint } of problems) {
        expect(message).not.toContain("__benchfolio");
        expect(hint).not.toBe("");
      }
    }),
    { seed: 20260302, numRuns: 40 },
  );
});
