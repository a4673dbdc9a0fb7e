import fc from "fast-check";
import { expect, test } from "vitest";
import { guessColumns } from "../../../src/build/receive/guess/guess-columns.js";
import { guessFromFileNames } from "../../../src/build/receive/guess/guess-file-names.js";
import { guessLayout } from "../../../src/build/receive/guess/guess-layout.js";
import { ReceiptProblems } from "../../../src/build/receive/problem.js";
import { dialects, exportRecord, records } from "./dialect.js";
import { latin1, placesOf, tryReceipt } from "./receipt.js";

const points = Array.from({ length: 60 }, (_, i) => {
  const x = i * 0.065;
  const force = x < 0.4 ? (i % 3) * 0.05 : 10 + 14 * (x - 0.4) + (i % 2) * 0.02;
  return [x, force] as const;
});
const stream = [...points, ...points.toReversed()];

function guess(files: Readonly<Record<string, string | Uint8Array>>) {
  const problems = new ReceiptProblems();
  const given = Object.entries(files).map(([name, content]) => ({
    name,
    bytes: typeof content === "string" ? new TextEncoder().encode(content) : content,
  }));
  const made = guessColumns(given, problems);
  const sureness = Object.fromEntries((made?.decisions ?? []).map((each) => [each.part, each.sureness]));
  return { text: made?.text ?? "", sureness, problems: problems.list() };
}

test("what names, units of measure and shape agree on is sure, and the proposal receives the file", () => {
  const file =
    "Protokoll;7\r\nZeit;Weg;Kraft;Kontakt\r\n[s];[mm];[N];\r\n" +
    stream
      .map(([mm, cN], i) => `${i},5;${mm.toFixed(3)};${(cN / 100).toFixed(4)};${mm > 2 ? 1 : 0}`.replaceAll(".", ","))
      .join("\r\n") + // prettier-ignore
    "\r\n";
  const { text, sureness, problems } = guess({ "KeyF.csv": latin1(file) });
  expect(problems).toEqual([]);
  expect(sureness).toEqual({
    kind: "sure",
    "layout.delimiter": "sure",
    "layout.decimal": "sure",
    "layout.lines_before": "sure",
    "layout.lines_after_header": "sure",
    displacement: "sure",
    force: "sure",
    contact: "likely",
    key: "sure",
    stroke: "sure",
    cycle: "likely",
    ignore: "likely",
  });
  const { receipt, problems: found } = tryReceipt({ "KeyF.csv": latin1(file) }, text);
  expect(placesOf(found)).toEqual([]);
  expect(receipt?.files[0]?.taken.map(({ name }) => name)).toEqual(["KeyF, cycle 1, press", "KeyF, cycle 1, release"]);
});

test("without names the drive is told from the cell by shape, and a unit that cannot be told apart is unsure", () => {
  const noisy = stream.map(([mm, cN], i) => `${(cN + ((i * 37) % 11) * 0.03).toFixed(2)}\t${mm.toFixed(3)}`).join("\n");
  const { text, sureness } = guess({ "run.txt": noisy });
  expect(text).toMatch(/displacement:\n {2}column_number: 2\n {2}unit: mm/);
  expect(text).toMatch(/force:\n {2}column_number: 1\n {2}unit: gf/);
  expect([sureness["displacement"], sureness["force"], sureness["key"]]).toEqual(["likely", "unsure", "unsure"]);
  expect(text).toContain("with stand-ins for what is empty (key): 120 rows would be taken");
});

test("what nobody can know is left empty, so that the proposal cannot be used unread", () => {
  const { text } = guess({ "1.csv": table(), "2.csv": `${table()}0.0,0.1\n` });
  const { receipt, problems } = tryReceipt({ "1.csv": table() }, text);
  expect(receipt).toBeUndefined();
  expect(problems.map(({ code }) => code)).toContain("E_VALUE_EMPTY");
});

function table(): string {
  return `displacement_mm,force_cN\n${stream.map(([mm, cN]) => `${mm.toFixed(3)},${cN.toFixed(2)}`).join("\n")}\n`;
}

test("a tester that counts upwards and pulls is proposed with both signs turned", () => {
  const file = `pos (mm);load (cN)\n${stream.map(([mm, cN]) => `${(9 - mm).toFixed(3)};${(-cN).toFixed(2)}`).join("\n")}\n`;
  const { text } = guess({ "KeyF.csv": file });
  expect(text.match(/reversed: true/g)).toHaveLength(2);
  const { receipt, problems } = tryReceipt({ "KeyF.csv": file }, text);
  expect(placesOf(problems)).toEqual([]);
  expect(receipt?.files[0]?.taken[0]?.name).toBe("KeyF, cycle 1, press");
});

test("names of files give key, stroke and cycle by the parts that differ", () => {
  const names = ["F", "T"].flatMap((key) => ["down", "up"].flatMap((stroke) => [0, 1].map((n) => `x/lab-7_${key}_${stroke}_run${n}.csv`))); // prettier-ignore
  const { key, stroke, cycle } = guessFromFileNames(names);
  expect(key).toEqual({
    pattern: "lab-7_{key}_{stroke}_run{cycle}.csv",
    codes: new Map([["F", "KeyF"], ["T", "KeyT"]]), // prettier-ignore
    isCode: false,
  });
  expect(stroke?.words).toEqual(new Map([["down", "press"], ["up", "release"]])); // prettier-ignore
  expect(cycle?.countedFrom).toBe(0);
  expect(guessFromFileNames(["KeyA.csv", "Space.csv"]).key).toMatchObject({ pattern: "{key}.csv", isCode: true });
  expect(guessFromFileNames(["curve-01.csv", "curve-02.csv"])).toMatchObject({
    key: null,
    cycle: null,
    differing: { pattern: "{key}.csv", texts: ["curve-01", "curve-02"] },
  });
});

test("sheets of several readers give the reader by the part in which their names differ, and a count as the press", () => {
  const rows = (first: number): string =>
    [0, 1, 2].map((i) => `a.mov;Kabel;F;${i};${first + i * 900};${first + 30 + i * 900};gut`).join("\n");
  const head = "Film;Anschluss;Taste;Nr;Kontakt (Bild);Antwort (Bild);Ergebnis\n";
  const { text, sureness } = guess({
    "ablesung-a.csv": `${head}${rows(100)}\n`,
    "ablesung-b.csv": `${head}${rows(101)}\n`,
  });
  expect(text).toMatch(/^press:\n {2}column: Nr\n {2}counted_from: 0$/m);
  expect(text).toMatch(/^reader:\n {2}file_name: ablesung-\{reader\}\.csv\n {2}codes:\n {4}a:\n {4}b:$/m);
  expect(text).toMatch(/^connection:\n {2}column: Anschluss\n {2}codes:\n {4}Kabel:$/m);
  expect(text).toContain("with stand-ins for what is empty (connection, reader): 6 rows would be taken");
  expect(sureness).toMatchObject({ press: "likely", reader: "unsure", connection: "unsure" });
});

test("a column that does not count on by one is not the number of a press", () => {
  const text =
    "Connection,Key,Clip,No,Reader,Contact frame,Response frame,Result\nusb,KeyF,c1,1,r,100,130,ok\nusb,KeyF,c1,5,r,600,631,ok\n";
  expect(guess({ "sheet.csv": text }).text).toMatch(/^press:\n {2}from: order$/m);
});

test("a camera sheet and an injector's log are told from force tables by their names", () => {
  const sheet = guess({ "sheet.csv": "Connection,Key,Clip,Press,Reader,Contact frame,Response frame,Result\nusb,KeyF,c1,1,reader-a,100,130,ok\nusb,KeyF,c1,2,reader-a,600,631,missed\n" }); // prettier-ignore
  expect(sheet.text).toContain("kind: presses");
  expect(sheet.sureness["kind"]).toBe("sure");
  expect(sheet.text).toMatch(/response_frame:\n {2}column: Response frame/);
  const log = guess({ "log.csv": "start_us,arrival_us\n100,3100\n50100,53120\n" });
  expect(log.text).toContain("kind: timings");
  expect(log.sureness).toMatchObject({
    kind: "sure",
    start: "sure",
    arrival: "sure",
    connection: "unsure",
    press: "likely",
  });
});

test("both decimal signs in one column are unsure; grouped digits are seen", () => {
  const mixed = guessLayout(["a;b", "1,5;2", "1.5;3", "2,5;3"], undefined);
  expect(mixed?.decisions.find(({ part }) => part === "layout.decimal")?.sureness).toBe("unsure");
  const grouped = guessLayout(["a;b", "1.205,5;2", "12,5;3"], undefined);
  expect(grouped?.layout).toMatchObject({ decimal: ",", grouping: "." });
});

test("a text that is no table is refused, and a binary one too", () => {
  expect(placesOf(guess({ "a.txt": "Dear lab,\nhere are the curves.\n" }).problems)).toEqual([
    "a.txt:1:1 E_DELIMITER_UNSEEN",
  ]);
  expect(placesOf(guess({ "a.xls": new Uint8Array([1, 2, 0, 4]) }).problems)).toEqual(["a.xls:1:1 E_FILE_BINARY"]);
});

test("the layout of a record in any dialect with a header is proposed as it was written", () => {
  fc.assert(
    fc.property(records, dialects, (rows, dialect) => {
      fc.pre(dialect.delimiter !== "::"); // of the delimiters that can be stated, not one that is looked for
      const { files } = exportRecord(rows, { ...dialect, hasHeader: true, preamble: ["Protokoll 7", "Bediener A"] });
      const [bytes] = Object.values(files);
      const encoding =
        dialect.encoding === "utf-16" ? "utf-16le" : dialect.encoding === "windows-1252" ? "latin1" : "utf-8";
      const text = Buffer.from(bytes!).toString(encoding as BufferEncoding).replace(/^\ufeff/, "").replace(/\r\n?/g, "\n"); // prettier-ignore
      const guessed = guessLayout(text.replace(/\n$/, "").split("\n"), undefined);
      expect(guessed?.layout.delimiter).toBe(dialect.delimiter);
      expect(guessed?.layout.linesBefore).toBe(2);
    }),
    { seed: 44, numRuns: 150 },
  );
});
