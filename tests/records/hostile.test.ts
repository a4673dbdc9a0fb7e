import fc from "fast-check";
import { expect, test } from "vitest";
import { checkArchive, readArchive } from "../../src/records/index.js";
import { createValidators } from "../../src/records/description-validator.js";
import { reportSchemaErrors } from "../../src/records/description-problems.js";
import { ProblemCollector } from "../../src/records/problem-collector.js";
import { decodeSource } from "../../src/records/read-source.js";
import { unitSchema } from "../../src/records/schemas/unit.js";
import { sourceText } from "../../src/records/source-text.js";
import { parseYaml } from "../../src/records/yaml-document.js";
import { validArchive, withArchive } from "./make-archive.js";

/** Runs something that must end soon whatever it is given. */
function soon<T>(run: () => T, mostMs = 8000): T {
  const start = performance.now();
  const result = run();
  expect(performance.now() - start).toBeLessThan(mostMs);
  return result;
}

const codesOf = (files: Readonly<Record<string, string | Uint8Array>>): readonly string[] =>
  withArchive(files, (root) => checkArchive(root).problems.map((p) => `${p.code} ${p.file}`));

test("a key named __proto__ is a key like any other and changes no object", () => {
  const lab = validArchive()["lab.yaml"]!;
  const hostile = `${lab}__proto__: { polluted: yes }\nconstructor: { prototype: { polluted: yes } }\n`;
  expect(codesOf({ "lab.yaml": hostile })).toEqual(["E_KEY_UNKNOWN lab.yaml", "E_KEY_UNKNOWN lab.yaml"]);
  expect(codesOf({ "lab.yaml": lab.replace("roles:", "roles:\n  __proto__: Nobody") })).toEqual([
    "E_TEXT_FORM lab.yaml",
  ]);
  expect(({} as Record<string, unknown>)["polluted"]).toBeUndefined();
});

test("a role or connection named like a property of every object is known only where it is stated", () => {
  const session = validArchive()["units/u01/s1/session.yaml"]!.replace("operator-1", "constructor");
  expect(codesOf({ "units/u01/s1/session.yaml": session })).toEqual(["E_ROLE_UNKNOWN units/u01/s1/session.yaml"]);
  const presses = validArchive()["units/u01/s2/presses.csv"]!.replaceAll("usb,", "constructor,");
  expect(codesOf({ "units/u01/s2/presses.csv": presses })).toEqual([
    "W_CONNECTION_NO_PRESSES units/u01/s2/presses.csv",
    "E_CONNECTION_UNKNOWN units/u01/s2/presses.csv",
  ]);
});

test("a column named __proto__ is an unknown column", () => {
  const films = validArchive()["units/u01/s2/films.csv"]!.replace("file", "__proto__");
  expect(codesOf({ "units/u01/s2/films.csv": films })).toEqual([
    "E_COLUMN_MISSING units/u01/s2/films.csv",
    "E_COLUMN_UNKNOWN units/u01/s2/films.csv",
  ]);
});

test("an alias bomb is refused at its aliases and never expanded", () => {
  const levels = Array.from({ length: 12 }, (_, i) =>
    i === 0 ? "a0: &a0 [x]" : `a${i}: &a${i} [${Array.from({ length: 9 }, () => `*a${i - 1}`).join(", ")}]`,
  );
  const codes = soon(() => codesOf({ "lab.yaml": levels.join("\n") }));
  expect(codes.filter((code) => code === "E_YAML_ALIAS lab.yaml")).toHaveLength(20);
});

test("brackets, dashes and keys nested by the thousand are refused soon", () => {
  for (const text of ["[".repeat(100_000), "- ".repeat(50_000), "{a: ".repeat(20_000), "? ".repeat(20_000)]) {
    const codes = soon(() => codesOf({ "units/u01/unit.yaml": text }));
    expect(codes.some((code) => /^E_YAML_\w+ units\/u01\/unit.yaml$/.test(code))).toBe(true);
  }
});

test("a mapping of twenty thousand keys, all alike or all different, is read soon", () => {
  const alike = "a: 1\n".repeat(20_000);
  const different = Array.from({ length: 20_000 }, (_, i) => `k${i}: 1`).join("\n");
  for (const text of [alike, different]) {
    const codes = soon(() => codesOf({ "lab.yaml": text }));
    expect(codes.length).toBeLessThan(80);
    expect(codes.length).toBeGreaterThan(2);
  }
});

test("a table that is one endless row, one endless field, or all quotes is read soon", () => {
  const header = `${validArchive()["units/u01/s1/force.csv"]!.split("\n", 1)[0]}\n`;
  for (const rest of [
    ",".repeat(500_000),
    "x".repeat(1_000_000),
    '"'.repeat(500_001),
    '""'.repeat(250_000),
    "\n".repeat(300_000),
    '"\n'.repeat(30_000),
    'KeyF,1,press,"'.repeat(50_000),
    "KeyF,1,press,1,1,0\n".repeat(20_000) + "x\n".repeat(10_000),
  ]) {
    const codes = soon(() => codesOf({ "units/u01/s1/force.csv": header + rest }), 15_000);
    expect(codes.length).toBeGreaterThan(0);
    expect(codes.length).toBeLessThan(80);
  }
});

test("any bytes decode to a text or to a problem", () => {
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 60 }), (bytes) => {
      const problems = new ProblemCollector();
      const source = decodeSource("f", bytes, problems);
      expect(source === undefined ? problems.hasErrors : !problems.hasErrors).toBe(true);
    }),
    { seed: 10, numRuns: 1000 },
  );
});

test("a byte that is not UTF-8 is found where it stands, behind any text", () => {
  fc.assert(
    fc.property(
      fc.string({ unit: fc.constantFrom(..."aé水\n"), maxLength: 30 }),
      fc.constantFrom(0xff, 0xe9, 0x80),
      (text, byte) => {
        const problems = new ProblemCollector();
        decodeSource("f", Buffer.concat([Buffer.from(text), Buffer.from([byte]), Buffer.from(" after")]), problems);
        const lines = text.split("\n");
        expect(problems.list()[0]).toMatchObject({
          code: "E_UTF8_INVALID",
          line: lines.length,
          column: lines.at(-1)!.length + 1,
          found: `0x${byte.toString(16)}`,
        });
      },
    ),
    { seed: 11 },
  );
});

test("any YAML text is checked without an exception, and every problem stands inside the text", () => {
  const validatorOf = createValidators();
  const pieces = [
    ..."ab:- \n[]{}\"'#&*!|>%@`,?\t1.~",
    "id: ",
    "limits:",
    "  - ",
    "nominal_cN: ",
    "switch: {",
    "}",
    "<<: ",
    "---\n",
  ];
  const text = fc.array(fc.constantFrom(...pieces), { maxLength: 40 }).map((parts) => parts.join(""));
  const start = fc.constantFrom("", validArchive()["units/u01/unit.yaml"]!);
  fc.assert(
    fc.property(start, text, fc.nat(), (head, rest, at) => {
      const cut = head === "" ? 0 : at % head.length;
      const source = sourceText("u.yaml", head.slice(0, cut) + rest + head.slice(cut));
      const problems = new ProblemCollector();
      const document = parseYaml(source, problems);
      const errors = document && validatorOf(unitSchema)(document.data);
      if (document && errors) reportSchemaErrors(document, errors, problems);
      if (document === undefined || errors) expect(problems.hasErrors || document?.unreadable.length).toBeTruthy();
      for (const problem of problems.list()) {
        const line = source.text.split("\n")[problem.line - 1];
        expect(line).toBeDefined();
        expect(problem.column).toBeLessThanOrEqual(line!.length + 1);
      }
    }),
    { seed: 12, numRuns: 400 },
  );
});

test("an archive with any one file cut, doubled or garbled is checked without an exception", () => {
  const paths = Object.keys(validArchive());
  const damage = fc.oneof(
    fc.nat().map((at) => (text: string) => text.slice(0, at % (text.length + 1))),
    fc.nat().map((at) => (text: string) => text.slice(at % (text.length + 1))),
    fc.constant((text: string) => text + text),
    fc.tuple(fc.nat(), fc.string({ unit: "binary", maxLength: 5 })).map(([at, piece]) => (text: string) => {
      const cut = at % (text.length + 1);
      return text.slice(0, cut) + piece + text.slice(cut + piece.length);
    }),
  );
  fc.assert(
    fc.property(fc.constantFrom(...paths), damage, (path, change) => {
      const files = { [path]: change(validArchive()[path]!) };
      withArchive(files, (root) => {
        expect(Array.isArray(checkArchive(root).problems)).toBe(true);
      });
    }),
    { seed: 13, numRuns: 25 },
  );
});

test("an archive read twice gives equal results", () => {
  withArchive({ "units/u01/unit.yaml": "id: 1\nid: 2\n" }, (root) => {
    expect(readArchive(root)).toEqual(readArchive(root));
  });
});
