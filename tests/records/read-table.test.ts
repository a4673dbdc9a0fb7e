import fc from "fast-check";
import { expect, test } from "vitest";
import { checkQuotes, fieldRanges } from "../../src/records/csv-quotes.js";
import { parseRecords } from "../../src/records/csv-records.js";
import { ProblemCollector } from "../../src/records/problem-collector.js";
import { parseTable } from "../../src/records/read-table.js";
import { forceSchema } from "../../src/records/schemas/force.js";
import { pressesSchema } from "../../src/records/schemas/presses.js";
import { readingsSchema } from "../../src/records/schemas/readings.js";
import type { TableSchema } from "../../src/records/schemas/table-schema.js";
import { sessionTables } from "../../src/records/index.js";
import { sourceText } from "../../src/records/source-text.js";
import type { Table } from "../../src/records/table.js";

function read(
  text: string,
  schema: TableSchema,
): { readonly table: Table | undefined; readonly codes: readonly string[] } {
  const problems = new ProblemCollector();
  const table = parseTable(sourceText("t.csv", text), schema, problems);
  return { table, codes: problems.list().map((p) => `${p.code} ${p.line}:${p.column}`) };
}

const pressHeader = "connection,key,clip,press,reader,contact_frame,mark_frame,response_frame,outcome,excluded";

test("a line end inside a quoted field keeps the line numbers of the rows after it", () => {
  const text = `${pressHeader}\nusb,KeyF,c,1,r,1,,2,ok,"the lamp\nflickered, twice"\nusb,KeyF,c,2,r,1,,2,ok,\nusb,KeyF,c,x,r,1,,2,ok,\n`;
  const { table, codes } = read(text, pressesSchema);
  expect([0, 1, 2].map((row) => [table!.firstLine(row), table!.lastLine(row)])).toEqual([
    [2, 3],
    [4, 4],
    [5, 5],
  ]);
  expect(table!.texts("excluded")[0]).toBe("the lamp\nflickered, twice");
  expect(codes).toEqual(["E_NUMBER 5:12"]);
});

test("a cell behind a quoted line end is found on the line where it stands", () => {
  const text = `key,cycle,stroke,displacement_mm,force_cN,contact\nKeyF,1,"press\n",x,1,0\n`;
  expect(read(text, forceSchema).codes).toEqual(["E_VALUE_UNKNOWN 2:8", "E_NUMBER 3:3"]);
});

test("doubled quotes and commas inside a quoted field belong to it", () => {
  const { table, codes } = read(`${pressHeader}\nusb,KeyF,c,1,r,1,,2,ok,"a 3"" plate, loose"\n`, pressesSchema);
  expect(codes).toEqual([]);
  expect(table!.texts("excluded")).toEqual(['a 3" plate, loose']);
});

test("columns may stand in any order", () => {
  fc.assert(
    fc.property(
      fc.shuffledSubarray(["key", "cycle", "stroke", "displacement_mm", "force_cN", "contact"], { minLength: 6 }),
      fc.array(fc.tuple(fc.integer({ min: 1, max: 9 }), fc.integer({ min: 0, max: 4000 })), { minLength: 1 }),
      (order, rows) => {
        const cells = rows.map(([cycle, um]) => ({
          key: "KeyF",
          cycle: String(cycle),
          stroke: "press",
          displacement_mm: (um / 1000).toFixed(3),
          force_cN: (um / 40).toFixed(1),
          contact: String(um % 2),
        }));
        const text = [
          order.join(","),
          ...cells.map((row) => order.map((name) => row[name as keyof typeof row]).join(",")),
        ];
        const { table, codes } = read(text.join("\n"), forceSchema);
        expect(codes).toEqual([]);
        expect([...table!.numbers("displacement_mm")]).toEqual(cells.map((row) => Number(row.displacement_mm)));
        expect(table!.texts("contact")).toEqual(cells.map((row) => row.contact));
        const column = order.indexOf("force_cN");
        expect(table!.place(0, "force_cN").column).toBe(
          text[1]!.split(",").slice(0, column).join(",").length + (column > 0 ? 2 : 1),
        );
      },
    ),
    { seed: 4, numRuns: 60 },
  );
});

/** Any text that a person could put into a cell: quotes, commas, line ends, other scripts. */
const anyCell = fc
  .string({ unit: fc.constantFrom(...'ab 1.,"\n;é水'), maxLength: 8 })
  .filter((text) => text.trim() === text);
const quoted = (cell: string): string => (/[",\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell);

test("a table written from any rows reads back as the same rows", () => {
  const row = fc.record({ day: anyCell, mount: anyCell, value: fc.double({ noNaN: true, min: -1e6, max: 1e6 }) });
  fc.assert(
    fc.property(fc.array(row, { minLength: 1, maxLength: 12 }), fc.boolean(), (rows, crlf) => {
      const header = readingsSchema.fields.map((field) => field.name);
      const lines = rows.map((each) => {
        const cells: Record<string, string> = {
          ...each,
          value: String(each.value),
          characteristic: "latency",
          symbol: "ms",
        };
        return header.map((name) => quoted(cells[name] ?? "")).join(",");
      });
      const text = [header.join(","), ...lines, ""].join(crlf ? "\r\n" : "\n");
      const { table, codes } = read(text, readingsSchema);
      expect(codes).toEqual([]);
      expect(table!.texts("day")).toEqual(rows.map((each) => each.day));
      expect(table!.texts("mount")).toEqual(rows.map((each) => each.mount));
      expect([...table!.numbers("value")]).toEqual(rows.map((each) => each.value + 0));
    }),
    { seed: 5, numRuns: 150 },
  );
});

test("records without the parser's line numbers are those with them, where no quote can hold a line end", () => {
  const text = fc.string({ unit: fc.constantFrom(..."a1,\n"), maxLength: 40 });
  fc.assert(
    fc.property(text, (content) => {
      const source = sourceText("t.csv", content);
      const [fast, plain] = [parseRecords(source), parseRecords(source, content.length, true)];
      expect(fast.records).toEqual(plain.records);
      expect([...fast.firstLine]).toEqual([...plain.firstLine]);
      expect([...fast.lastLine]).toEqual([...plain.lastLine]);
    }),
    { seed: 6, numRuns: 300 },
  );
});

test("the ranges of fields agree with the parser's fields, record by record", () => {
  const cells = fc.array(fc.array(anyCell, { minLength: 1, maxLength: 4 }), { minLength: 1, maxLength: 5 });
  fc.assert(
    fc.property(cells, (rows) => {
      const source = sourceText("t.csv", rows.map((row) => row.map(quoted).join(",")).join("\n"));
      const { records, firstLine } = parseRecords(source, source.text.length, true);
      records.forEach((record, i) => {
        const ranges = fieldRanges(source.text, source.lineStarts[firstLine[i]! - 1]!);
        const fields = ranges.map(([start, end]) => source.text.slice(start, end));
        expect(fields.map((field) => field.replace(/^"([^]*)"$/, "$1").replaceAll('""', '"'))).toEqual(record);
      });
    }),
    { seed: 7, numRuns: 200 },
  );
});

test("any text reads without an exception, and every problem stands inside the text", () => {
  const text = fc.string({ unit: fc.constantFrom(..."key,cycle\n\r\"';1.5-e\t\u00e9\u2028NaN "), maxLength: 80 });
  const schemas = fc.constantFrom(...Object.values(sessionTables));
  const start = fc.constantFrom("", "key,cycle,stroke,displacement_mm,force_cN,contact\n", `${pressHeader}\n`);
  fc.assert(
    fc.property(start, text, schemas, (head, rest, schema) => {
      const source = sourceText("t.csv", head + rest);
      const problems = new ProblemCollector();
      parseTable(source, schema, problems);
      for (const problem of problems.list()) {
        const line = source.text.split("\n")[problem.line - 1];
        expect(line).toBeDefined();
        expect(problem.column).toBeLessThanOrEqual(line!.length + 1);
      }
    }),
    { seed: 8, numRuns: 600 },
  );
});

test("a quote that is never closed stops the reading at its record and keeps the rows before it", () => {
  const text = `${pressHeader}\nusb,KeyF,c,1,r,1,,2,ok,\nusb,KeyF,c,2,r,1,,2,ok,"oh\nusb,KeyF,c,3,r,1,,2,ok,\n`;
  const { table, codes } = read(text, pressesSchema);
  expect(codes).toEqual(["E_CSV_QUOTE_UNCLOSED 3:24"]);
  expect([table!.rows, table!.isComplete]).toEqual([1, false]);
  const problems = new ProblemCollector();
  expect(checkQuotes(sourceText("t.csv", text), problems)).toBe(text.indexOf("usb,KeyF,c,2"));
});

test("rows with a problem stay in their place and are marked", () => {
  const text =
    "key,cycle,stroke,displacement_mm,force_cN,contact\nKeyF,1,press,0,0,0\nKeyF,1,press,1\nKeyF,1,press,2,x,0\nKeyF,1,press,3,9,0\n";
  const { table, codes } = read(text, forceSchema);
  expect([...table!.broken]).toEqual([0, 1, 1, 0]);
  expect([...table!.numbers("force_cN")]).toEqual([0, NaN, NaN, 9]);
  expect(codes).toEqual(["E_ROW_SHORT 3:15", "E_NUMBER 4:16"]);
});

test("numbers in any accepted unit of measure become the schema's own, exactly", () => {
  const rows = "KeyF,1,press,100,45.1,\nKeyF,1,press,2540,0.57,\n";
  for (const [length, force, mm, cN] of [
    ["um", "gf", [0.1, 2.54], [44.2279915, 0.55897905]],
    ["in", "N", [2540, 64516], [4510, 57]],
    ["mm", "mN", [100, 2540], [4.51, 0.057]],
  ] as const) {
    const { table, codes } = read(
      `key,cycle,stroke,displacement_${length},force_${force},contact\n${rows}`,
      forceSchema,
    );
    expect(codes).toEqual([]);
    expect([...table!.numbers("displacement_mm")]).toEqual(mm);
    expect([...table!.numbers("force_cN")]).toEqual(cN);
    expect(table!.header("force_cN")).toBe(`force_${force}`);
  }
});

test("a number too large to be one is out of range, whatever its unit of measure", () => {
  const row = (force: string): string => `key,cycle,stroke,displacement_mm,force_N,contact\nKeyF,1,press,1,${force},\n`;
  expect(read(row("1e300"), forceSchema).codes).toEqual(["E_NUMBER_RANGE 2:16"]);
  expect(read(row("1e999"), forceSchema).codes).toEqual(["E_NUMBER_NOT_FINITE 2:16"]);
});

test("what the profile's numbers admit and a reading may not be is refused", () => {
  for (const [cell, code] of [
    ["INF", "E_NUMBER_NOT_FINITE"],
    ["-INF", "E_NUMBER_NOT_FINITE"],
    ["nan", "E_NUMBER_NOT_FINITE"],
    ["1,5", "E_DECIMAL_COMMA"],
    ["1.234,5", "E_DECIMAL_COMMA"],
    ["0x10", "E_NUMBER"],
    ["1_000", "E_NUMBER"],
    [" 1", "E_NUMBER"],
    ["1 N", "E_NUMBER"],
    ["１", "E_NUMBER"],
    ["--1", "E_NUMBER"],
  ]) {
    const text = `key,cycle,stroke,displacement_mm,force_cN,contact\nKeyF,1,press,1,"${cell}",0\n`;
    expect(read(text, forceSchema).codes).toEqual([`${code} 2:16`]);
  }
  for (const cell of ["1", "-1", "+1", "1.", ".5", "1e3", "1E-3"]) {
    const text = `key,cycle,stroke,displacement_mm,force_cN,contact\nKeyF,1,press,1,${cell},0\n`;
    expect(read(text, forceSchema).codes).toEqual([]);
  }
});

test("every schema states the profile, unique field names, and a required column for each primary key", () => {
  for (const schema of [...Object.values(sessionTables), readingsSchema]) {
    expect(schema.$schema).toBe("https://datapackage.org/profiles/2.0/tableschema.json");
    const names = schema.fields.map((field) => field.name);
    expect(new Set(names).size).toBe(names.length);
    for (const name of schema.primaryKey ?? []) {
      expect(schema.fields.find((field) => field.name === name)?.constraints?.required).toBe(true);
    }
    for (const field of schema.fields) expect(["string", "integer", "number"]).toContain(field.type);
  }
});
