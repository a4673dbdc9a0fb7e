import fc from "fast-check";

/** One row of a record as the archive writes it: digits as texts. */
export interface PlainRow {
  readonly key: string;
  readonly cycle: number;
  readonly stroke: "press" | "release";
  readonly displacement: string;
  readonly force: string;
  readonly contact: "0" | "1" | "";
}

/** A way in which an export could be written. */
export interface Dialect {
  readonly delimiter: "," | ";" | "\t" | "|" | "::" | "spaces";
  readonly decimal: "." | ",";
  readonly grouping: "" | "." | "," | "'" | " ";
  readonly quoteAll: boolean;
  readonly preamble: readonly string[];
  readonly hasHeader: boolean;
  readonly unitRow: boolean;
  readonly columnOrder: readonly number[];
  readonly extraColumn: boolean;
  readonly comments: boolean;
  readonly blanks: boolean;
  readonly lineEnd: "\n" | "\r\n" | "\r";
  readonly encoding: "utf-8" | "utf-8 with mark" | "utf-16" | "windows-1252";
  readonly delimiterAtEnd: boolean;
  readonly footer: boolean;
  readonly keyFrom: "column" | "file_name";
  readonly strokeFrom: "column" | "file_name";
  readonly cycleFrom: "column" | "order";
  readonly reversedForce: boolean;
}

export const dialects: fc.Arbitrary<Dialect> = fc.record({
  delimiter: fc.constantFrom(",", ";", "\t", "|", "::", "spaces"),
  decimal: fc.constantFrom(".", ","),
  grouping: fc.constantFrom("", ".", ",", "'", " "),
  quoteAll: fc.boolean(),
  preamble: fc.array(fc.constantFrom('Gerät 3.5" No. 7', "Datum;12,5;3", "", "Operator A", "d,f"), { maxLength: 4 }),
  hasHeader: fc.boolean(),
  unitRow: fc.boolean(),
  columnOrder: fc.shuffledSubarray([0, 1, 2, 3, 4, 5], { minLength: 6 }),
  extraColumn: fc.boolean(),
  comments: fc.boolean(),
  blanks: fc.boolean(),
  lineEnd: fc.constantFrom("\n", "\r\n", "\r"),
  encoding: fc.constantFrom("utf-8", "utf-8 with mark", "utf-16", "windows-1252"),
  delimiterAtEnd: fc.boolean(),
  footer: fc.boolean(),
  keyFrom: fc.constantFrom("column", "file_name"),
  strokeFrom: fc.constantFrom("column", "file_name"),
  cycleFrom: fc.constantFrom("column", "order"),
  reversedForce: fc.boolean(),
});

/** A record of a few keys and cycles whose strokes could be those of keys. */
export const records: fc.Arbitrary<readonly PlainRow[]> = fc
  .record({
    keys: fc.uniqueArray(fc.constantFrom("KeyF", "Space", "Digit1", "IntlBackslash"), { minLength: 1, maxLength: 3 }),
    cycles: fc.integer({ min: 1, max: 2 }),
    rows: fc.integer({ min: 4, max: 9 }),
    noise: fc.array(fc.integer({ min: 0, max: 9999 }), { minLength: 4, maxLength: 9 }),
    digits: fc.integer({ min: 0, max: 4 }),
    isMicro: fc.boolean(),
    hasContact: fc.boolean(),
  })
  .map(({ keys, cycles, rows, noise, digits, isMicro, hasContact }) =>
    keys.flatMap((key, k) =>
      Array.from({ length: cycles }, (_, c) => c + 1).flatMap((cycle) =>
        (["press", "release"] as const).flatMap((stroke) => {
          const down = Array.from({ length: rows }, (_, i) => i);
          return (stroke === "press" ? down : down.toReversed()).map((i): PlainRow => {
            const depth = (i * 4000) / (rows - 1) + (noise[(i + k) % noise.length]! % 90);
            const load = 10 + 12 * i + noise[(i + cycle) % noise.length]! / 9999;
            return {
              key,
              cycle,
              stroke,
              displacement: isMicro ? depth.toFixed(digits) : (depth / 1000).toFixed(digits + 1),
              force: load.toFixed(digits),
              contact: hasContact ? (i * 2 > rows ? "1" : "0") : "",
            };
          });
        }),
      ),
    ),
  );

export interface Exported {
  readonly files: Readonly<Record<string, Uint8Array>>;
  readonly yaml: string;
  /** Line of the header in every file; 0 where there is none. */
  readonly headerLine: number;
}

/** Writes a record as exports in a dialect, with the columns file that reads them. */
export function exportRecord(rows: readonly PlainRow[], wanted: Dialect): Exported {
  const dialect = possible(rows, wanted);
  const groups = new Map<string, PlainRow[]>();
  for (const row of rows) {
    const name = `run_${dialect.keyFrom === "column" ? "all" : row.key}_${dialect.strokeFrom === "column" ? "both" : words[row.stroke]}.txt`; // prettier-ignore
    groups.set(name, [...(groups.get(name) ?? []), row]);
  }
  const files = Object.fromEntries([...groups].map(([name, own]) => [name, encode(render(own, dialect), dialect)]));
  return { files, yaml: columnsYaml(rows, dialect), headerLine: dialect.hasHeader ? dialect.preamble.length + 1 : 0 };
}

const words = { press: "hinab", release: "zurück" } as const;

/** Combinations that no export can have, made possible. */
function possible(rows: readonly PlainRow[], wanted: Dialect): Dialect {
  const dialect = { ...wanted };
  // Empty cells and quotes do not exist between runs of spaces, nor do marks of groups that are spaces.
  if (dialect.delimiter === "spaces") Object.assign(dialect, { quoteAll: false, delimiterAtEnd: false, grouping: "" });
  if (dialect.grouping === dialect.decimal) dialect.grouping = "";
  const clash = dialect.decimal === dialect.delimiter || dialect.grouping === dialect.delimiter;
  if (clash) dialect.quoteAll = true;
  if (!dialect.hasHeader) dialect.unitRow = false;
  // Several presses of one key in a file of presses alone cannot be told apart without their numbers.
  if (dialect.strokeFrom === "file_name" && rows.some(({ cycle }) => cycle > 1)) dialect.cycleFrom = "column";
  return dialect;
}

function cellsOf(row: PlainRow, dialect: Dialect): readonly string[] {
  const number = (text: string): string => {
    const [whole, fraction] = text.split(".") as [string, string | undefined];
    const grouped = dialect.grouping === "" ? whole : whole.replace(/\B(?=(\d{3})+$)/g, dialect.grouping);
    return fraction === undefined ? grouped : `${grouped}${dialect.decimal}${fraction}`;
  };
  const force = dialect.reversedForce && Number(row.force) !== 0 ? `-${number(row.force)}` : number(row.force);
  const contact = { "0": "auf", "1": "zu", "": "keine" }[row.contact];
  const all = [row.key, String(row.cycle), words[row.stroke], number(row.displacement), force, contact];
  return [...dialect.columnOrder.map((i) => all[i]!), ...(dialect.extraColumn ? ["x y".replace(" ", "_")] : [])];
}

const names = ["Taste", "Zyklus", "Richtung", "Weg", "Kraft", "Kontakt"];

function render(rows: readonly PlainRow[], dialect: Dialect): string {
  const { delimiter, quoteAll, delimiterAtEnd } = dialect;
  const quoted = (cell: string): string => (quoteAll ? `"${cell}"` : cell);
  const between = delimiter === "spaces" ? "   " : delimiter;
  const line = (cells: readonly string[]): string =>
    `${delimiter === "spaces" ? "  " : ""}${cells.map(quoted).join(between)}${delimiterAtEnd ? between : ""}`;
  const header = [...dialect.columnOrder.map((i) => names[i]!), ...(dialect.extraColumn ? ["Rest"] : [])];
  const units = [...dialect.columnOrder.map((i) => (i === 4 ? "[cN]" : "-")), ...(dialect.extraColumn ? ["-"] : [])];
  const body = rows.flatMap((row, i) => [
    ...(dialect.comments && i % 3 === 1 ? ["# remark; 1,2.3"] : []),
    ...(dialect.blanks && i % 4 === 2 ? [""] : []),
    line(cellsOf(row, dialect)),
  ]);
  return [
    ...dialect.preamble,
    ...(dialect.hasHeader ? [line(header)] : []),
    ...(dialect.unitRow ? [line(units)] : []),
    ...body,
    ...(dialect.footer ? ["Ende der Messung;7", "2,5"] : []),
    "",
  ].join(dialect.lineEnd);
}

function encode(text: string, { encoding }: Dialect): Uint8Array {
  if (encoding === "windows-1252") return new Uint8Array(Buffer.from(text, "latin1"));
  if (encoding === "utf-16") return new Uint8Array(Buffer.from(`\ufeff${text}`, "utf16le"));
  return new TextEncoder().encode(encoding === "utf-8 with mark" ? `\ufeff${text}` : text);
}

function columnsYaml(rows: readonly PlainRow[], dialect: Dialect): string {
  const pick = (i: number): string =>
    dialect.hasHeader ? `column: ${names[i]}` : `column_number: ${dialect.columnOrder.indexOf(i) + 1}`;
  const unit = rows.some(({ displacement }) => Number(displacement) > 100) ? "um" : "mm";
  const pattern = (place: "key" | "stroke"): string => (place === "key" ? "run_{key}_*.txt" : "run_*_{stroke}.txt");
  const used = new Set([3, 4, 5]);
  if (dialect.keyFrom === "column") used.add(0);
  if (dialect.cycleFrom === "column") used.add(1);
  if (dialect.strokeFrom === "column") used.add(2);
  const unused = [0, 1, 2].filter((i) => !used.has(i));
  const ignored = dialect.hasHeader
    ? `ignore: [${[...unused.map((i) => names[i]), ...(dialect.extraColumn ? ["Rest"] : [])].join(", ")}]`
    : `ignore_numbers: [${[...unused.map((i) => dialect.columnOrder.indexOf(i) + 1), ...(dialect.extraColumn ? [7] : [])].join(", ")}]`;
  const layout = {
    ...(dialect.encoding === "windows-1252" && { encoding: "windows-1252" }),
    delimiter: dialect.delimiter === "\t" ? "tab" : dialect.delimiter,
    decimal: dialect.decimal,
    ...(dialect.grouping !== "" && { grouping: dialect.grouping }),
    lines_before: dialect.preamble.length,
    header: dialect.hasHeader,
    lines_after_header: dialect.unitRow ? 1 : 0,
    comment: "#",
    stops_at: "Ende",
  };
  return [
    "kind: force",
    `layout: ${JSON.stringify(layout)}`,
    `displacement: { ${pick(3)}, unit: ${unit} }`,
    `force: { ${pick(4)}, unit: cN${dialect.reversedForce ? ", reversed: true" : ""} }`,
    `contact: { ${pick(5)}, closed: [zu], open: [auf], not_read: [keine] }`,
    `key: { ${dialect.keyFrom === "column" ? pick(0) : `file_name: "${pattern("key")}"`} }`,
    `stroke: { ${dialect.strokeFrom === "column" ? pick(2) : `file_name: "${pattern("stroke")}"`}, press: [hinab], release: [zurück] }`,
    `cycle: { ${dialect.cycleFrom === "column" ? pick(1) : "from: order"} }`,
    ignored,
    "",
  ].join("\n");
}
