import { expect, test } from "vitest";
import { latin1, leftOutOf, linesAccountedFor, tryReceipt } from "./receipt.js";

const press =
  "0.00,0.1 0.25,0.0 0.50,12.5 0.75,20.0 1.00,27.5 1.25,35.0 1.50,42.5 1.75,50.0 2.00,57.5 2.25,65.0 2.50,72.5"
    .split(" ")
    .map((pair) => pair.split(",") as [string, string]);
const release = press.toReversed();

/** The record's rows of one stroke. */
function rowsOf(
  key: string,
  cycle: number,
  stroke: string,
  pairs: readonly (readonly string[])[],
  contact = "",
): string {
  return pairs.map(([mm, force]) => `${key},${cycle},${stroke},${mm},${force},${contact}\n`).join("");
}

test("a preamble, semicolons, decimal commas, a row of units and a closing line are read past and listed", () => {
  const rows = [...press, ...release.slice(1)].map(
    ([mm, n], i) => `${i};${mm!.replace(".", ",")};${n!.replace(".", ",")};`,
  );
  const file = ["Prüfprotokoll;12", "Bediener;A", "", "Zeit;Weg;Kraft;", "[s];[mm];[cN];", ...rows, "Ergebnis;gut", "Ende"].join("\r\n") + "\r\n"; // prettier-ignore
  const { receipt, problems } = tryReceipt(
    { "messung.csv": latin1(file) },
    `
kind: force
layout: { encoding: windows-1252, decimal: ",", lines_before: 3, lines_after_header: 1, stops_at: Ergebnis }
displacement: { column: Weg, unit: mm }
force: { column: Kraft, unit: cN }
key: { is: KeyF }
stroke: { from: stream }
cycle: { from: order }
ignore: [Zeit]
`,
  );
  expect(problems).toEqual([]);
  expect(receipt?.table).toBe("force.csv");
  expect(receipt?.text).toBe(
    "key,cycle,stroke,displacement_mm,force_cN,contact\n" +
      rowsOf("KeyF", 1, "press", press) +
      rowsOf("KeyF", 1, "release", release.slice(1)),
  );
  expect(leftOutOf(receipt)).toEqual({
    "messung.csv": [
      "1-3 before the table",
      "5-5 between the header and the rows",
      "27-28 after the table, which `Ergebnis` ends",
    ],
  });
  expect(linesAccountedFor(receipt!, { "messung.csv": 4 })).toBe(true);
});

test("tabs without a header, columns by number, and a contact channel with its own words", () => {
  const line = (stroke: string) => ([mm, gf]: readonly string[]) => `${gf}\t${stroke}\t${mm}\t${Number(mm) >= 1.5 ? "zu" : "auf"}`; // prettier-ignore
  const file = [...press.map(line("ab")), "0\thalt\t2.50\tzu", ...release.map(line("auf"))].join("\n");
  const { receipt, problems } = tryReceipt(
    { "run.txt": file },
    `
kind: force
layout: { header: false }
displacement: { column_number: 3, unit: mm }
force: { column_number: 1, unit: gf }
contact: { column_number: 4, closed: [zu], open: [auf] }
key: { is: Space }
stroke: { column_number: 2, press: [ab], release: [auf], leave_out: [halt] }
cycle: { from: order }
`,
  );
  expect(problems).toEqual([]);
  const withContact = (stroke: string, pairs: readonly (readonly string[])[]): string =>
    pairs.map((pair) => rowsOf("Space", 1, stroke, [pair], Number(pair[0]) >= 1.5 ? "1" : "0")).join("");
  expect(receipt?.text).toBe(
    "key,cycle,stroke,displacement_mm,force_gf,contact\n" +
      withContact("press", press) +
      withContact("release", release),
  );
  expect(leftOutOf(receipt)).toEqual({ "run.txt": ["12-12 the stroke is `halt`"] });
  expect(linesAccountedFor(receipt!)).toBe(true);
});

test("quoted fields may hold delimiters, quotes and line ends; a byte order mark and carriage returns are read past", () => {
  const rows = (stroke: string, pairs: readonly (readonly string[])[]): readonly string[] =>
    pairs.map(([mm, n], i) => `"${mm}","T","2","${stroke}","${n}","a ""b"", ${i}\r\nnext line"`);
  const file = `\ufeff"Travel, mm","Key","Cycle","Stroke","Load","Note"\r\n${[...rows("down", press), ...rows("up", release)].join("\r\n")}\r\n`; // prettier-ignore
  const { receipt, problems } = tryReceipt(
    { "quoted.csv": file },
    `
kind: force
displacement: { column: "Travel, mm", unit: mm }
force: { column: Load, unit: cN }
key: { column: Key, codes: { T: KeyT } }
stroke: { column: Stroke, press: [down], release: [up] }
cycle: { column: Cycle }
ignore: [Note]
`,
  );
  expect(problems).toEqual([]);
  expect(receipt?.text).toBe(
    "key,cycle,stroke,displacement_mm,force_cN,contact\n" +
      rowsOf("KeyT", 2, "press", press) +
      rowsOf("KeyT", 2, "release", release),
  );
  expect(receipt?.files[0]?.taken.map(({ firstLine, lastLine }) => [firstLine, lastLine])).toEqual([
    [2, 23],
    [24, 45],
  ]);
  expect(linesAccountedFor(receipt!, { "quoted.csv": 1 })).toBe(true);
});

test("inches and newtons stay inches and newtons, digit for digit, zeros at the end too", () => {
  const inches = ["0.0000", "0.0100", "0.0200", "0.0300", "0.0400", "0.0500", "0.0600", "0.0700", "0.0800", "0.0900"];
  const newtons = ["0.000", "0.001", "0.100", "0.200", "0.300", "0.400", "0.500", "0.550", "0.600", "0.700"];
  const file = `Travel (in)|Load (N)\n${inches.map((each, i) => `${each}|${newtons[i]}`).join("\n")}\n`;
  const { receipt, problems } = tryReceipt(
    { "KeyA.csv": file },
    `
kind: force
displacement: { column: Travel (in), unit: in }
force: { column: Load (N), unit: N }
key: { file_name: "{key}.csv" }
stroke: { is: press }
cycle: { is: 7 }
`,
  );
  expect(problems).toEqual([]);
  expect(receipt?.text).toBe(
    "key,cycle,stroke,displacement_in,force_N,contact\n" +
      inches.map((each, i) => `KeyA,7,press,${each},${newtons[i]},\n`).join(""),
  );
});

test("one file a key and stroke: names give key, stroke and cycle, and one pattern serves all three", () => {
  const file = (pairs: readonly (readonly string[])[]): string =>
    `d  f\n${pairs.map(([mm, n]) => `${mm!.padStart(8)}   ${n}`).join("\n")}\n`;
  const name = '"lab_{key}_{stroke}_{cycle}.dat"';
  const { receipt, problems } = tryReceipt(
    {
      "x/lab_F_down_0.dat": file(press),
      "x/lab_F_up_0.dat": file(release),
      "x/lab_G_down_0.dat": file(press.map(([mm, n]) => [mm, `${n}1`])),
      "x/lab_G_up_0.dat": file(release.map(([mm, n]) => [mm, `${n}1`])),
    },
    `
kind: force
displacement: { column: d, unit: mm }
force: { column: f, unit: cN }
key: { file_name: ${name}, codes: { F: KeyF, G: KeyG } }
stroke: { file_name: ${name}, press: [down], release: [up] }
cycle: { file_name: ${name}, counted_from: 0 }
`,
  );
  expect(problems).toEqual([]);
  expect(receipt?.files.map(({ name: file, delimiter, taken }) => [file, delimiter, taken[0]?.name])).toEqual([
    ["x/lab_F_down_0.dat", "spaces", "KeyF, cycle 1, press"],
    ["x/lab_F_up_0.dat", "spaces", "KeyF, cycle 1, release"],
    ["x/lab_G_down_0.dat", "spaces", "KeyG, cycle 1, press"],
    ["x/lab_G_up_0.dat", "spaces", "KeyG, cycle 1, release"],
  ]);
});

test("two files of one key: presses and releases pair up in the order of the files", () => {
  const file = (pairs: readonly (readonly string[])[], more: string): string =>
    `d,f\n${pairs.map(([mm, n]) => `${mm},${n}${more}`).join("\n")}\n`;
  const { receipt } = tryReceipt(
    {
      "down-1.csv": file(press, "1"),
      "down-2.csv": file(press, "2"),
      "up-1.csv": file(release, "3"),
      "up-2.csv": file(release, "4"),
    },
    `
kind: force
displacement: { column: d, unit: mm }
force: { column: f, unit: cN }
key: { is: KeyA }
stroke: { file_name: "{stroke}-*.csv", press: [down], release: [up] }
cycle: { from: order }
`,
  );
  expect(receipt?.files.flatMap(({ taken }) => taken.map(({ name }) => name))).toEqual([
    "KeyA, cycle 1, press",
    "KeyA, cycle 2, press",
    "KeyA, cycle 1, release",
    "KeyA, cycle 2, release",
  ]);
});

test("one stream with three cycles is split, counted on, and its dwells are listed", () => {
  const cycle = [...press, ["2.50", "72.4"], ["2.50", "72.6"], ...release];
  const file = `d,f\n${[...cycle, ["0.00", "0.0"], ...cycle].map((row) => row.join(",")).join("\n")}\n`;
  const { receipt, problems } = tryReceipt(
    { "one.csv": file, "two.csv": file.replaceAll("72.4", "72.9") },
    `
kind: force
displacement: { column: d, unit: mm }
force: { column: f, unit: cN }
key: { is: KeyA }
stroke: { from: stream }
cycle: { from: order }
`,
  );
  expect(problems).toEqual([]);
  expect(receipt?.files.map(({ taken }) => taken.map(({ name }) => name.slice(6)))).toEqual([
    ["cycle 1, press", "cycle 1, release", "cycle 2, press", "cycle 2, release"],
    ["cycle 3, press", "cycle 3, release", "cycle 4, press", "cycle 4, release"],
  ]);
  expect(leftOutOf(receipt)["one.csv"]?.every((each) => each.endsWith("dwell at the deepest point, of neither stroke"))).toBe(true); // prettier-ignore
  expect(linesAccountedFor(receipt!, { "one.csv": 1, "two.csv": 1 })).toBe(true);
});

test("signs are turned digit by digit where a tester counts upwards or pulls", () => {
  const file = `z;F\n${press.map(([mm, n]) => `${mm === "0.00" ? "0.00" : `-${mm}`};${n === "0.0" ? "-0.0" : `-${n}`}`).join("\n")}\n`;
  const { receipt, problems } = tryReceipt(
    { "up.csv": file },
    `
kind: force
displacement: { column: z, unit: mm, reversed: true }
force: { column: F, unit: cN, reversed: true }
key: { is: KeyA }
stroke: { is: press }
cycle: { is: 1 }
`,
  );
  expect(problems).toEqual([]);
  expect(receipt?.text.split("\n").slice(1, -1).join("\n") + "\n").toBe(rowsOf("KeyA", 1, "press", press));
});

test("units of measure behind each number or in a column of their own are held against the columns file", () => {
  const file = `Weg;Einheit;Kraft\n${press.map(([mm, n]) => `${mm};mm;${n} gf`).join("\n")}\n`;
  const yaml = `
kind: force
displacement: { column: Weg, unit: mm, unit_column: Einheit }
force: { column: Kraft, unit: gf }
key: { is: KeyA }
stroke: { is: press }
cycle: { is: 1 }
`;
  const { receipt, problems } = tryReceipt({ "a.csv": file }, yaml);
  expect(problems).toEqual([]);
  expect(receipt?.text.split("\n").slice(1, -1).join("\n") + "\n").toBe(rowsOf("KeyA", 1, "press", press));
  const wrong = tryReceipt({ "a.csv": file.replace("20.0 gf", "20.0 cN").replace("0.75;mm", "0.75;um") }, yaml);
  expect(wrong.receipt).toBeUndefined();
  expect(wrong.problems.map(({ line, found, expected }) => [line, found, expected])).toEqual([
    [5, "um", "mm"],
    [5, "cN", "gf"],
  ]);
});

test("grouped digits lose their marks and nothing else", () => {
  const file = `Weg µm;Kraft\n${press.map(([mm, n]) => `${(Number(mm) * 1000).toLocaleString("de-DE")},0;${n!.replace(".", ",")}`).join("\n")}\n`; // prettier-ignore
  const { receipt, problems } = tryReceipt(
    { "a.csv": file },
    `
kind: force
layout: { decimal: ",", grouping: "." }
displacement: { column: Weg µm, unit: um }
force: { column: Kraft, unit: cN }
key: { is: KeyA }
stroke: { is: press }
cycle: { is: 1 }
`,
  );
  expect(problems).toEqual([]);
  expect(receipt?.text.split("\n")[5]).toBe("KeyA,1,press,1000.0,27.5,");
});

test("UTF-16 with a byte order mark needs no statement", () => {
  const text = `\ufeffd\tf\r\n${press.map((row) => row.join("\t")).join("\r\n")}\r\n`;
  const { receipt, problems } = tryReceipt(
    { "a.txt": new Uint8Array(Buffer.from(text, "utf16le")) },
    `
kind: force
displacement: { column: d, unit: mm }
force: { column: f, unit: cN }
key: { is: KeyA }
stroke: { is: press }
cycle: { is: 1 }
`,
  );
  expect(problems).toEqual([]);
  expect(receipt?.rows).toBe(press.length);
});

test("lines left out by hand are not read at all, and a stream goes on across them", () => {
  const rows = [...press, ...release.slice(1)].map((row) => row.join(","));
  rows.splice(4, 0, "OVER,RANGE,what");
  const yaml = `
kind: force
displacement: { column: d, unit: mm }
force: { column: f, unit: cN }
key: { is: KeyA }
stroke: { from: stream }
cycle: { from: order }
leave_out:
  - { from_line: 6, to_line: 6, reason: The cell was beyond its range }
`;
  const { receipt, problems } = tryReceipt({ "a.csv": `d,f\n${rows.join("\n")}\n` }, yaml);
  expect(problems).toEqual([]);
  expect(receipt?.rows).toBe(21);
  expect(leftOutOf(receipt)["a.csv"]).toEqual(["6-6 The cell was beyond its range"]);
});

test("a camera sheet becomes presses.csv, with its words translated and its frames as whole numbers", () => {
  const file =
    "Anschluss;Film;Nr;Taste;Kontakt;Marke;Antwort;Ergebnis;Bemerkung\n" +
    "Kabel;c1;0;F;120,00;131;152;gut;\n" +
    "Kabel;c1;1;F;620;;;verpasst;\n" +
    "Funk;c2;0;F;1 120;1131;1160;gut;Kamera angestoßen, Licht\n" +
    "Funk;c2;1;F;1620;1631;1661;;\n";
  const { receipt, problems } = tryReceipt(
    { "ablesung-a.csv": file },
    `
kind: presses
layout: { delimiter: ";", decimal: ",", grouping: " " }
connection: { column: Anschluss, codes: { Kabel: usb, Funk: receiver } }
key: { column: Taste, codes: { F: KeyF } }
clip: { column: Film }
press: { column: Nr, counted_from: 0 }
reader: { file_name: "ablesung-{reader}.csv", codes: { a: reader-a } }
contact_frame: { column: Kontakt, unit: frames }
mark_frame: { column: Marke }
response_frame: { column: Antwort }
outcome: { column: Ergebnis, ok: [gut, ""], missed: [verpasst] }
excluded: { column: Bemerkung }
`,
    { roles: { "reader-a": "Film reader A" }, connections: ["usb", "receiver"] },
  );
  expect(problems).toEqual([]);
  expect(receipt?.table).toBe("presses.csv");
  expect(receipt?.text).toBe(
    "connection,key,clip,press,reader,contact_frame,mark_frame,response_frame,outcome,excluded\n" +
      "usb,KeyF,c1,1,reader-a,120,131,152,ok,\n" +
      "usb,KeyF,c1,2,reader-a,620,,,missed,\n" +
      'receiver,KeyF,c2,1,reader-a,1120,1131,1160,ok,"Kamera angestoßen, Licht"\n' +
      "receiver,KeyF,c2,2,reader-a,1620,1631,1661,ok,\n",
  );
});

test("an injector's log becomes timings.csv: presses counted for each connection, each time in its own unit", () => {
  const { receipt, problems } = tryReceipt(
    { "usb.csv": "# log 3\ntrigger,seen\n0.1,3150\n10.1,13202\n", "receiver.csv": "trigger,seen\n0.1,9150\n" },
    `
kind: timings
layout: { comment: "#" }
connection: { file_name: "{connection}.csv" }
press: { from: order }
start: { column: trigger, unit: ms }
arrival: { column: seen, unit: us }
`,
  );
  expect(problems).toEqual([]);
  expect(receipt?.text).toBe(
    "connection,press,start_ms,arrival_us,excluded\nusb,1,0.1,3150,\nusb,2,10.1,13202,\nreceiver,1,0.1,9150,\n",
  );
  expect(leftOutOf(receipt)["usb.csv"]).toEqual(["1-1 comment, starts with `#`"]);
});
