import fc from "fast-check";
import { expect, test } from "vitest";
import type { Assembly } from "../../src/templates/compile/assemble.js";
import { assembleModule } from "../../src/templates/compile/assemble.js";
import type { SyntaxReading } from "../../src/templates/compile/check-syntax.js";
import type { ParsedTemplate } from "../../src/templates/parse/parse-template.js";
import { parseTemplate } from "../../src/templates/parse/parse-template.js";
import { withFrontMatter } from "./support.js";

const whole: SyntaxReading = { problems: [], broken: false, names: [] };

function assemble(parsed: ParsedTemplate, reading: (index: number) => SyntaxReading = () => whole): Assembly {
  return assembleModule(parsed, parsed.cells.map(({ index }) => reading(index)), parsed.inlines.map(({ index }) => reading(index)));
}

const parse = (body: string): ParsedTemplate => parseTemplate(withFrontMatter(body), "t.md");

test("text becomes empty lines, fences become wrappers, inline values stand on their own line", () => {
  const { text } = assemble(parse("# T [= a =] [= b =]\n\n```ts figure f: F\nreturn x;\n```\nText.\n```ts work\nconst w = 1;\n```\n"));
  expect(text.split("\n")).toEqual([
    "",
    "",
    "",
    "function __benchfolio_value0(): __benchfolio.Printable { return (a); }function __benchfolio_value1(): __benchfolio.Printable { return (b); }",
    "",
    "function __benchfolio_cell0(): __benchfolio.Chart {",
    "return x;",
    "}",
    "",
    "",
    "const w = 1;",
    ";",
    "",
  ]);
});

test("a broken cell leaves its lines empty and its names declared", () => {
  const parsed = parse("```ts work\nconst a = ;\n```\n");
  const { text, slots } = assemble(parsed, () => ({ problems: [], broken: true, names: ["a"] }));
  expect(text.split("\n").slice(3, 6)).toEqual(["declare const a: any; type a = any; ", "", ""]);
  expect(slots[0]!.start).toBe(slots[0]!.end);
});

const part = fc.oneof(
  fc.constantFrom("", "text é", "# Title", "🎹 [= a =]\t[= bc + d =]x[= e =]", "| [= a | b =] | c |\n|--|--|\n| [= f =] | g |"),
  fc
    .tuple(fc.constantFrom("work", "figure a: A", "table b", "criterion c: C"), fc.constantFrom("x", "\ty;\n\nz", "é = '🎹'", "{"))
    .map(([head, body]) => `\`\`\`ts ${head}\n${body}\n\`\`\``),
);

test("the module has the template's number of lines, and every character of a slot leads back to itself", () => {
  fc.assert(
    fc.property(fc.array(part, { maxLength: 8 }), fc.array(fc.boolean(), { minLength: 16, maxLength: 16 }), (parts, broken) => {
      const parsed = parse(parts.join("\n\n"));
      const assembly = assemble(parsed, (index) => ({ ...whole, broken: broken[index % 16]! && index > 2 }));
      expect(assembly.text.split("\n")).toHaveLength(parsed.lines.length);
      for (const slot of assembly.slots) {
        for (let offset = slot.start; offset < slot.end; offset++) {
          const char = assembly.text[offset]!;
          const { place, length } = assembly.locate(offset, 1);
          expect(length).toBe(1);
          if (char !== "\n") expect(parsed.lines[place.line - 1]![place.column - 1]).toBe(char);
          expect(assembly.slotAt(offset)).toBe(slot);
        }
      }
    }),
    { seed: 20260302, numRuns: 200 },
  );
});

test("every place of the module, wrappers included, leads to a place of the template", () => {
  const parsed = parse("[= a =] [= b =]\n```ts figure f: F\nreturn x;\n```\n```ts work\nconst w = 1;\n```\n");
  const assembly = assemble(parsed);
  for (let offset = 0; offset <= assembly.text.length; offset++) {
    const { place } = assembly.locate(offset, 1000);
    expect(place.line).toBeLessThanOrEqual(parsed.lines.length);
    expect(place.column).toBeLessThanOrEqual(parsed.lines[place.line - 1]!.length + 1);
  }
});
