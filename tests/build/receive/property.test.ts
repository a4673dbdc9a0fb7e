import fc from "fast-check";
import { expect, test } from "vitest";
import type { PlainRow } from "./dialect.js";
import { dialects, exportRecord, records } from "./dialect.js";
import { linesAccountedFor, tryReceipt } from "./receipt.js";

/** The rows as the archive writes them. */
function plainText(rows: readonly PlainRow[]): readonly string[] {
  return rows.map((row) => [row.key, row.cycle, row.stroke, row.displacement, row.force, row.contact].join(","));
}

test("a record written in any dialect is received row by row as it was, and every line is accounted for", () => {
  fc.assert(
    fc.property(records, dialects, (rows, dialect) => {
      const { files, yaml, headerLine } = exportRecord(rows, dialect);
      const { receipt, problems } = tryReceipt(files, yaml);
      expect(problems.filter(({ severity }) => severity === "error")).toEqual([]);
      const lines = receipt!.text.split("\n").slice(1, -1);
      // Several files put the strokes in another order; within a stroke the order is the source's.
      const expected = plainText(rows);
      const strokes = (all: readonly string[]): readonly string[] =>
        all.toSorted((a, b) => compare(strokeOf(a), strokeOf(b)));
      expect(strokes(lines)).toEqual(strokes(expected));
      const headers = Object.fromEntries(Object.keys(files).map((name) => [name, headerLine]));
      if (!dialect.comments && !dialect.blanks) {
        expect(linesAccountedFor(receipt!, headerLine === 0 ? {} : headers)).toBe(true);
      }
      expect(receipt!.files.reduce((sum, file) => sum + file.rowsTaken, 0)).toBe(rows.length);
    }),
    { seed: 41, numRuns: 200 },
  );
});

test("the same files give the same table, whatever was received before", () => {
  fc.assert(
    fc.property(records, dialects, (rows, dialect) => {
      const { files, yaml } = exportRecord(rows, dialect);
      expect(tryReceipt(files, yaml).receipt).toEqual(tryReceipt(files, yaml).receipt);
    }),
    { seed: 42, numRuns: 20 },
  );
});

test("any text under any layout gives a receipt or problems inside the text, and never an exception", () => {
  const texts = fc.oneof(
    fc.string({ unit: fc.constantFrom("0", "1", ",", ";", ".", "\n", "\r", '"', " ", "\t", "d", "f", "-", "#", "é"), maxLength: 120 }), // prettier-ignore
    fc.string({ unit: "binary", maxLength: 60 }),
  );
  const layouts = fc.constantFrom(
    "{}",
    "{ header: false }",
    '{ delimiter: ",", lines_before: 1, lines_after_header: 1 }',
    '{ delimiter: spaces, comment: "#" }',
    '{ delimiter: ";", decimal: ",", grouping: ".", stops_at: d }',
  );
  const heads = fc.constantFrom("column: d", "column_number: 1");
  fc.assert(
    fc.property(
      texts,
      layouts,
      heads,
      fc.constantFrom("{ is: press }", "{ from: stream }"),
      (text, layout, pick, stroke) => {
        const yaml = `kind: force\nlayout: ${layout}\ndisplacement: { ${pick}, unit: mm }\nforce: { column_number: 2, unit: cN }\nkey: { is: KeyA }\nstroke: ${stroke}\ncycle: { from: order }\n`; // prettier-ignore
        const { receipt, problems } = tryReceipt({ "a.csv": `d,f\n${text}` }, yaml);
        expect(receipt !== undefined || problems.some(({ severity }) => severity === "error")).toBe(true);
        const lines = `d,f\n${text}`.replace(/\r\n?/g, "\n").split("\n");
        for (const { file, line, column } of problems) {
          if (file !== "a.csv") continue;
          expect(line).toBeGreaterThanOrEqual(1);
          expect(line).toBeLessThanOrEqual(lines.length);
          expect(column).toBeLessThanOrEqual(lines[line - 1]!.length + 1);
        }
      },
    ),
    { seed: 43, numRuns: 250 },
  );
});

function strokeOf(line: string): string {
  return line.split(",").slice(0, 3).join(",");
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
