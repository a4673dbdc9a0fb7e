import { expect, test } from "vitest";
import { makeReceipt } from "../../../src/build/receive/make-receipt.js";
import { ReceiptProblems } from "../../../src/build/receive/problem.js";
import { readColumnsText } from "../../../src/build/receive/read-columns.js";
import { sourceText } from "../../../src/records/source-text.js";
import { receiptWordings } from "../../../src/build/receive/wording.js";
import { latin1, leftOutOf, placesOf, tryReceipt } from "./receipt.js";

const pairs = Array.from(
  { length: 14 },
  (_, i) => [(0.25 * i).toFixed(2), (i < 2 ? 0.1 * i : 5 * i).toFixed(1)] as const,
);
const rows = pairs.map((pair) => pair.join(",")).join("\n");
const table = `d,f\n${rows}\n`;
const head = "kind: force\ndisplacement: { column: d, unit: mm }\nforce: { column: f, unit: cN }\n";
const plain = `${head}key: { is: KeyA }\nstroke: { is: press }\ncycle: { is: 1 }\n`;

interface Case {
  readonly name: string;
  readonly files?: Readonly<Record<string, string | Uint8Array>>;
  readonly yaml?: string;
  readonly places: readonly string[];
  /** Part of the first problem's message, hint or notes. */
  readonly says: string;
}

const cases: readonly Case[] = [
  {
    name: "a value that says nowhere where it comes from",
    yaml: plain.replace("{ is: KeyA }", "{ codes: { F: KeyF } }"),
    places: ["columns.yaml:4:6 E_VALUE_FROM"],
    says: "is, column, column_number, file_name",
  },
  {
    name: "a value that says it twice, at the second",
    yaml: plain.replace("{ is: KeyA }", "{ is: KeyA, column: k }"),
    places: ["columns.yaml:4:18 E_VALUE_FROM"],
    says: "keep exactly one",
  },
  {
    name: "a pattern of names without its own place",
    yaml: plain.replace("{ is: KeyA }", '{ file_name: "*.csv" }'),
    places: ["columns.yaml:4:19 E_NAME_PATTERN"],
    says: "has no place {key}",
  },
  {
    name: "a pattern of names with a place that is none",
    yaml: plain.replace("{ is: KeyA }", '{ file_name: "{key}_{strok}.csv" }'),
    places: ["columns.yaml:4:19 E_NAME_PATTERN"],
    says: "{strok}",
  },
  {
    name: "a word that stands for two values",
    yaml: plain.replace("{ is: press }", "{ column: s, press: [a, b], release: [c, a] }"),
    places: ["columns.yaml:5:50 E_WORD_TWICE"],
    says: "`press` already",
  },
  {
    name: "lines left out backwards",
    yaml: `${plain}leave_out: [{ from_line: 9, to_line: 3, reason: Trial }]\n`,
    places: ["columns.yaml:7:38 E_LEAVE_OUT"],
    says: "the last line, 3, comes before the first, 9",
  },
  {
    name: "lines left out beyond the end",
    yaml: `${plain}leave_out: [{ from_line: 9, to_line: 99, reason: Trial }]\n`,
    places: ["columns.yaml:7:13 E_LEAVE_OUT"],
    says: "a.csv has 15 lines",
  },
  {
    name: "lines left out of a file that is not given",
    yaml: `${plain}leave_out: [{ file: b.csv, from_line: 9, to_line: 9, reason: Trial }]\n`,
    places: ["columns.yaml:7:13 E_LEAVE_OUT"],
    says: "not among the files",
  },
  {
    name: "a misspelt key of the columns file, with the nearest name",
    yaml: plain.replace("displacement:", "displacment:"),
    places: ["columns.yaml:2:1 E_KEY_UNKNOWN"],
    says: "did you mean `displacement`?",
  },
  {
    name: "an unknown kind",
    yaml: plain.replace("kind: force", "kind: forces"),
    places: ["columns.yaml:1:7 E_VALUE_UNKNOWN"],
    says: "did you mean `force`?",
  },
  {
    name: "a unit of measure the table does not take, with the nearest",
    yaml: plain.replace("unit: cN", "unit: g"),
    places: ["columns.yaml:3:27 E_VALUE_UNKNOWN"],
    says: "did you mean `gf`?",
  },
  {
    name: "a columns file that is no YAML",
    yaml: "kind: [force\n",
    places: ["columns.yaml:1:7 E_YAML_UNCLOSED"],
    says: "",
  },
  {
    name: "one file under two names",
    files: { "a.csv": table, "b.csv": table },
    yaml: plain.replace("{ is: 1 }", "{ from: order }"),
    places: ["b.csv:1:1 E_FILE_TWICE"],
    says: "same bytes as a.csv",
  },
  {
    name: "an empty file",
    files: { "a.csv": "" },
    places: ["a.csv:1:1 E_FILE_EMPTY"],
    says: "cut off",
  },
  {
    name: "a workbook in place of a table",
    files: { "a.csv": new Uint8Array([0x50, 0x4b, 3, 4, 0, 0, 1, 2, 0]) },
    places: ["a.csv:1:1 E_FILE_BINARY"],
    says: "a workbook cannot be read",
  },
  {
    name: "bytes that are not UTF-8, with the other encoding as a remedy",
    files: { "a.csv": latin1(table.replace("d,f", "d,f,µ")) },
    places: ["a.csv:1:5 E_UTF8_INVALID"],
    says: "encoding: windows-1252",
  },
  {
    name: "bytes that are not the stated encoding",
    files: { "a.csv": new Uint8Array([0xff, 0xfe, 0x00, 0xd8, 0x41, 0x00]) },
    yaml: `${plain}layout: { encoding: utf-16 }\n`,
    places: ["a.csv:1:1 E_ENCODING"],
    says: "UTF-16",
  },
  {
    name: "more lines before the table than the file has",
    yaml: `${plain}layout: { lines_before: 40 }\n`,
    places: ["a.csv:1:1 E_TABLE_ABSENT"],
    says: "lines_before",
  },
  {
    name: "a header and no row",
    files: { "a.csv": "d,f\n" },
    places: ["a.csv:1:1 E_TABLE_ABSENT"],
    says: "row of readings",
  },
  {
    name: "lines that no delimiter splits alike",
    files: { "a.csv": "d\n1\n2\n" },
    places: ["a.csv:1:1 E_DELIMITER_UNSEEN"],
    says: "state `delimiter`",
  },
  {
    name: "a quote that is never closed, at its opening",
    files: { "a.csv": table.replace("0.50,10.0", '0.50,"10.0') },
    places: ["a.csv:4:6 E_CSV_QUOTE_UNCLOSED"],
    says: "never closed",
  },
  {
    name: "text behind a quoted field",
    files: { "a.csv": table.replace("0.50,10.0", '"0.50"x,10.0') },
    places: ["a.csv:4:6 E_CSV_QUOTE_STRAY"],
    says: "before the end of a quoted field",
  },
  {
    name: "a column that is not there, with the nearest name and where the header stands",
    yaml: plain.replace("column: f", "column: Force N"),
    files: { "a.csv": table.replace("d,f", "d,Force [N]") },
    places: ["columns.yaml:3:18 E_COLUMN_ABSENT"],
    says: "did you mean `Force [N]`?",
  },
  {
    name: "a column number beyond the last",
    yaml: plain.replace("column: f", "column_number: 3"),
    places: ["a.csv:1:3 E_COLUMN_UNLISTED", "columns.yaml:3:25 E_COLUMN_ABSENT"],
    says: "neither used nor ignored",
  },
  {
    name: "two columns of one name",
    files: { "a.csv": table.replace("d,f", "f,f") },
    yaml: plain.replace("column: d", "column_number: 1"),
    places: ["columns.yaml:3:18 E_COLUMN_AMBIGUOUS"],
    says: "2 columns of the file are named `f`",
  },
  {
    name: "a column that is neither used nor ignored",
    files: { "a.csv": table.replaceAll(/\n(?=\d)/g, "\n7,").replace("d,f", "t,d,f") },
    places: ["a.csv:1:1 E_COLUMN_UNLISTED"],
    says: "add it to `ignore`",
  },
  {
    name: "a column without a name that holds something",
    files: { "a.csv": table.replaceAll(/\n(?=\d)/g, "\n7,").replace("d,f", ",d,f") },
    places: ["a.csv:1:1 E_COLUMN_UNLISTED"],
    says: "ignore_numbers",
  },
  {
    name: "a name that does not fit the pattern",
    yaml: plain.replace("{ is: KeyA }", '{ file_name: "{key}_*.csv" }'),
    places: ["a.csv:1:1 E_FILE_NAME"],
    says: "`{key}_*.csv`",
  },
  {
    name: "a row that ends early",
    files: { "a.csv": table.replace("0.50,10.0", "0.50") },
    places: ["a.csv:4:5 E_ROW_SHORT", "a.csv:4:5 E_CELL_EMPTY"].toSorted(),
    says: "",
  },
  {
    name: "a row with a field too many",
    files: { "a.csv": table.replace("0.50,10.0", "0,50,10.0") },
    places: ["a.csv:4:6 E_ROW_LONG"],
    says: "decimal comma",
  },
  {
    name: "a decimal comma that is not stated, once a file and counted",
    files: { "a.csv": table.replaceAll(".", ";").replaceAll(",", "|").replaceAll(";", ",") },
    places: ["2", "3", "4", "5", "6"].map((line) => `a.csv:${line}:1 E_DECIMAL_SIGN`),
    says: "state `decimal`",
  },
  {
    name: "a reading beyond the range of the cell",
    files: { "a.csv": table.replace("10.0", "OVER") },
    places: ["a.csv:4:6 E_NUMBER"],
    says: "OVER",
  },
  {
    name: "a reading that is not a finite number",
    files: { "a.csv": table.replace("10.0", "NaN") },
    places: ["a.csv:4:6 E_NUMBER_NOT_FINITE"],
    says: "NaN",
  },
  {
    name: "an empty reading",
    files: { "a.csv": table.replace("10.0", "") },
    places: ["a.csv:4:6 E_CELL_EMPTY"],
    says: "`force` is empty",
  },
  {
    name: "another unit of measure in the header",
    files: { "a.csv": table.replace("d,f", "d,f [gf]") },
    yaml: plain.replace("column: f", 'column: "f [gf]"'),
    places: ["a.csv:1:3 E_UNIT_DIFFERS"],
    says: "the file says gf here; the columns file says cN",
  },
  {
    name: "another unit of measure in the line below the header",
    files: { "a.csv": table.replace("d,f", "d,f\nmm,[gf]") },
    yaml: `${plain}layout: { lines_after_header: 1 }\n`,
    places: ["a.csv:2:4 E_UNIT_DIFFERS"],
    says: "column_number",
  },
  {
    name: "a text that names no key",
    files: { "f.csv": table },
    yaml: plain.replace("{ is: KeyA }", '{ file_name: "{key}.csv" }'),
    places: ["f.csv:1:1 E_KEY_UNMAPPED"],
    says: '`"f": KeyF`',
  },
  {
    name: "a word for a stroke that is not translated",
    files: {
      "a.csv": table
        .replaceAll(/\n(?=\d)/g, "\nhin,")
        .replace("d,f", "s,d,f")
        .replace("\nhin", "\nhinn"),
    },
    yaml: plain.replace("{ is: press }", "{ column: s, press: [hin], release: [her] }"),
    places: ["a.csv:2:1 E_WORD_UNMAPPED"],
    says: "did you mean `hin`?",
  },
  {
    name: "a stream without a press",
    files: { "a.csv": `d,f\n${pairs.map(([mm]) => `${mm},0.0`).join("\n")}\n` },
    yaml: plain.replace("{ is: press }", "{ from: stream }").replace("{ is: 1 }", "{ from: order }"),
    places: ["a.csv:2:1 E_STREAM_NO_PRESS"],
    says: "force never rises",
  },
  {
    name: "two presses in a stream of one stated cycle",
    files: { "a.csv": `d,f\n${rows}\n${rows.split("\n").reverse().join("\n")}\n${rows}\n` },
    yaml: plain.replace("{ is: press }", "{ from: stream }"),
    places: ["a.csv:2:1 E_STREAM_CYCLES"],
    says: "cycle: { from: order }",
  },
  {
    name: "a file all of whose rows are left out",
    yaml: `${plain}leave_out: [{ from_line: 1, to_line: 15, reason: Trial }]\n`,
    places: ["a.csv:1:1 E_NOTHING_TAKEN"],
    says: "leave_out",
  },
  {
    name: "a stroke recorded twice, with both lines of the source",
    files: { "a.csv": table, "b.csv": table.replace("10.0", "10.1") },
    places: ["b.csv:2:1 E_STROKE_DUPLICATE"],
    says: "2 of a.csv",
  },
  {
    name: "a force that pulls",
    files: { "a.csv": table.replaceAll(/,(?=[1-9])/g, ",-") },
    places: ["a.csv:1:3 E_FORCE_SIGN"],
    says: "reversed: true",
  },
  {
    name: "a force ten times too small for a key",
    files: { "a.csv": `d,f\n${pairs.map(([mm, cN]) => `${mm},${(Number(cN) / 100).toFixed(3)}`).join("\n")}\n` },
    places: ["a.csv:1:3 E_FORCE_MAGNITUDE"],
    says: "`force_N`",
  },
];

test.each(cases)("$name", ({ files, yaml, places, says }) => {
  const { receipt, problems } = tryReceipt(files ?? { "a.csv": table }, yaml ?? plain);
  expect(receipt).toBeUndefined();
  expect(placesOf(problems).toSorted()).toEqual([...places].toSorted());
  const first = problems[0]!;
  expect([first.message, first.hint, ...first.notes].join("\n")).toContain(says);
});

test("every code of receipt has a case, here or among the commands", () => {
  const elsewhere = ["E_NO_FILE", "E_FILES_HUGE"]; // the latter below
  const tried = cases.flatMap(({ places }) => places.map((place) => place.split(" ").at(-1)));
  expect(Object.keys(receiptWordings).filter((code) => !tried.includes(code) && !elsewhere.includes(code))).toEqual([]);
});

test("the rows of the unspoilt file are received", () => {
  const { receipt, problems } = tryReceipt({ "a.csv": table }, plain);
  expect(problems).toEqual([]);
  expect(receipt?.rows).toBe(14);
});

test("empty cells beyond the last column, and rows of nothing but delimiters, are no rows and no problem", () => {
  const text = table.replaceAll("\n", ",,\n").replace("0.50,10.0,,", ",,,,\n0.50,10.0,,");
  const { receipt, problems } = tryReceipt({ "a.csv": text }, `${plain}layout: { delimiter: "," }\n`);
  expect(problems).toEqual([]);
  expect(leftOutOf(receipt)["a.csv"]).toEqual(["4-4 blank"]);
});

test("a quote inside an unquoted field, as in a column of inches, stands for itself", () => {
  const text = table.replace("d,f", 'Travel ["],f').replaceAll(/(\d)\.(\d\d),/g, "0.$1$2,");
  const { receipt, problems } = tryReceipt(
    { "a.csv": text },
    plain.replace("{ column: d, unit: mm }", "{ column: 'Travel [\"]', unit: in }"),
  );
  expect(problems).toEqual([]);
  expect(receipt?.text.split("\n")[0]).toBe("key,cycle,stroke,displacement_in,force_cN,contact");
});

test("a line of three million characters is one problem at its place, in little time", () => {
  const started = performance.now();
  for (const fill of ["9", ",", '"', " ", "x9"]) {
    const text = table.replace("10.0", fill.repeat(3_000_000 / fill.length));
    const { receipt, problems } = tryReceipt({ "a.csv": text }, `${plain}layout: { delimiter: "," }\n`);
    expect([fill, receipt === undefined || fill === ","]).toEqual([fill, true]);
    expect(problems.every(({ message }) => message.length < 200)).toBe(true);
  }
  expect(performance.now() - started).toBeLessThan(20_000);
});

test("a thousand broken rows give a few problems and the number of the others", () => {
  const text = `d,f\n${"x,1.0\n".repeat(1000)}`;
  const { problems } = tryReceipt({ "a.csv": text }, plain);
  expect(problems).toHaveLength(5);
  expect(problems.at(-1)?.notes).toContain("995 more of E_NUMBER in this file");
});

test("files, or a table of theirs, beyond what a record holds are refused", () => {
  const refused = (maxBytes: number, names: readonly string[]): readonly string[] => {
    const problems = new ReceiptProblems();
    const columns = readColumnsText(
      sourceText("columns.yaml", plain.replace("{ is: 1 }", "{ from: order }")),
      problems,
    )!;
    const given = names.map((name, i) => ({ name, bytes: new TextEncoder().encode(table.replace("10.0", `10.${i}`)) }));
    makeReceipt(given, columns, { roles: {}, connections: null }, problems, maxBytes);
    return problems.list().map(({ code, message }) => `${code} ${message}`);
  };
  expect(refused(200, ["a.csv", "b.csv"])).toEqual([
    "E_FILES_HUGE the files hold 284 bytes together; a record holds at most 200 bytes",
  ]);
  expect(refused(300, ["a.csv"])).toEqual([
    "E_FILES_HUGE force.csv would hold 384 bytes; a record holds at most 300 bytes",
  ]);
  expect(refused(1000, ["a.csv", "b.csv"])).toEqual([]);
});
