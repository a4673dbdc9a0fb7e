import { numberReader } from "../number-cell.js";
import { delimiterName, delimiters, splitLine } from "../find-delimiter.js";
import { unitOfWord } from "../unit-words.js";
import type { Encoding, Layout } from "../columns.js";
import type { Decision, Sureness } from "./decision.js";

/** The layout of a file as it looks, with the reasons. */
export interface LayoutGuess {
  readonly layout: Layout & { readonly delimiter: string };
  /** Units of measure in the line below the header; empty where there is no such line. */
  readonly unitRow: readonly string[];
  readonly decisions: readonly Decision[];
}

/** What comments start with in exports. */
const commentMarks: readonly string[] = ["#", "//", "%", "*", "!"];

/** Lines that are looked at from the start. */
const linesRead = 4000;

/** The lines that one delimiter makes into rows of readings. */
interface DataLines {
  readonly delimiter: string;
  readonly fields: number;
  /** Indices of lines that hold readings. */
  readonly at: readonly number[];
  readonly numericShare: number;
  /** Whether the line above the first of them splits into as many fields without a number. */
  readonly hasNames: boolean;
}

/**
 * The layout of a file: the delimiter that makes the most lines into rows of readings, the header above them, what is left
 * out around them, and the decimal sign. Undefined where no delimiter makes rows of at least two fields.
 *
 * @param encoding what the bytes were decoded from, where that is not UTF-8
 */
export function guessLayout(allLines: readonly string[], encoding: Encoding | undefined): LayoutGuess | undefined {
  const lines = allLines.slice(0, linesRead);
  const candidates = delimiters.map((delimiter) => dataLines(lines, delimiter)).filter((each) => each.at.length > 0);
  const data = candidates.reduce<DataLines | undefined>(
    (best, each) => (best === undefined || isBetter(each, best) ? each : best),
    undefined,
  );
  if (data === undefined) return undefined;
  const decisions: Decision[] = [];
  const decide = (part: string, sureness: Sureness, reason: string): void =>
    void decisions.push({ part, sureness, reason });
  if (encoding !== undefined)
    decide("layout.encoding", encoding === "utf-16" ? "sure" : "likely", encodingReason(encoding));
  const share = data.at.length / lines.filter((line) => line.trim() !== "").length;
  const rival = candidates.find((each) => each !== data && each.at.length > 0.9 * data.at.length);
  const rows = `${delimiterName(data.delimiter)} makes ${data.at.length} lines into rows of ${data.fields} fields`;
  decide(
    "layout.delimiter",
    share > 0.8 && (rival === undefined || data.numericShare > 0.9) ? "sure" : "likely",
    rival === undefined
      ? rows
      : `${rows}; ${delimiterName(rival.delimiter)} would make ${rival.at.length} of ${rival.fields}`,
  );
  const head = guessHead(lines, data, decide);
  const decimal = guessDecimal(lines, data, decide);
  const after = guessEnd(allLines, lines, data, decide);
  const layout = { ...(encoding && { encoding }), delimiter: data.delimiter, ...decimal, ...head.layout, ...after };
  return { layout, unitRow: head.unitRow, decisions };
}

type Decide = (part: string, sureness: Sureness, reason: string) => void;

function encodingReason(encoding: Encoding): string {
  return encoding === "utf-16" ? "the byte order mark says so" : "the bytes are not UTF-8, and this is the usual other";
}

/** Names above the rows count first, where not far fewer rows have them; then more rows; then the share of numbers. */
function isBetter(a: DataLines, b: DataLines): boolean {
  const [rowsA, rowsB] = [a.at.length, b.at.length];
  if (a.hasNames !== b.hasNames && Math.min(rowsA, rowsB) > 0.8 * Math.max(rowsA, rowsB)) return a.hasNames;
  if (Math.max(rowsA, rowsB) > 1.02 * Math.min(rowsA, rowsB)) return rowsA > rowsB;
  return a.numericShare > b.numericShare + 0.05; // equal ones stay in the order of the delimiters
}

const [readPoint, readComma] = [
  numberReader({ decimal: ".", grouping: "" }),
  numberReader({ decimal: ",", grouping: "" }),
];

/** Whether a cell looks like a number, whatever its decimal sign. */
export function looksNumeric(cell: string): boolean {
  if (!("wrong" in readPoint(cell)) || !("wrong" in readComma(cell))) return true;
  return /^[+\u2212-]?\d{1,3}([.,' \u00a0\u202f]\d{3})+([.,]\d+)?$/u.test(cell.slice(0, 64));
}

function dataLines(lines: readonly string[], delimiter: string): DataLines {
  const counts = new Map<number, { at: number[]; numeric: number; cells: number }>();
  lines.forEach((line, i) => {
    if (commentMarks.some((mark) => line.trimStart().startsWith(mark))) return;
    const cells = splitLine(line, delimiter);
    const filled = cells.filter((cell) => cell !== "");
    const numeric = filled.filter(looksNumeric).length;
    if (cells.length < 2 || numeric === 0 || numeric * 4 < filled.length) return;
    const group = counts.get(cells.length) ?? { at: [], numeric: 0, cells: 0 };
    counts.set(cells.length, group);
    group.at.push(i);
    group.numeric += numeric;
    group.cells += filled.length;
  });
  const none = { at: [] as number[], numeric: 0, cells: 1 };
  const [fields, most] = [...counts].sort((a, b) => b[1].at.length - a[1].at.length)[0] ?? [0, none];
  const above = lines.slice(0, most.at[0] ?? 0).findLast((line) => line.trim() !== "");
  const names = above === undefined ? [] : splitLine(above, delimiter);
  const hasNames = names.length === fields && !names.some(looksNumeric);
  return { delimiter, fields, at: most.at, numericShare: most.numeric / most.cells, hasNames };
}

interface Head {
  readonly layout: Pick<Layout, "linesBefore" | "hasHeader" | "linesAfterHeader">;
  readonly unitRow: readonly string[];
}

/** The header is the line of names above the first row, and above the line of units of measure where there is one. */
function guessHead(lines: readonly string[], data: DataLines, decide: Decide): Head {
  const first = data.at[0]!;
  const names: { readonly at: number; readonly cells: readonly string[] }[] = [];
  for (let at = first - 1; at >= 0 && names.length < 3; at -= 1) {
    if (lines[at]!.trim() === "") continue;
    const cells = splitLine(lines[at]!, data.delimiter);
    const filled = cells.filter((cell) => cell !== "");
    const spare = data.delimiter === "spaces" ? 0 : 1; // a delimiter may end the rows and not the header, or only it
    if (Math.abs(cells.length - data.fields) > spare || filled.length < 2 || filled.some(looksNumeric)) break;
    names.unshift({ at, cells });
  }
  const below = names.at(-1);
  if (below === undefined) {
    decide(
      "layout.header",
      first === 0 ? "sure" : "likely",
      `line ${first + 1} holds readings, and no line of names stands above it`,
    );
    if (first > 0)
      decide("layout.lines_before", "likely", `line ${first + 1} is the first of ${data.fields} fields with readings`);
    return { layout: { linesBefore: first, hasHeader: false, linesAfterHeader: 0 }, unitRow: [] };
  }
  const hasUnitRow = names.length > 1 && below.cells.filter((cell) => cell !== "").every((cell) => unitOfWord(cell) !== undefined || /^[[(-]/u.test(cell)); // prettier-ignore
  const header = hasUnitRow ? names.at(-2)! : below;
  if (header.at > 0) decide("layout.lines_before", "sure", `line ${header.at + 1} names the columns of the rows below`);
  if (hasUnitRow) decide("layout.lines_after_header", "sure", `line ${below.at + 1} states units of measure`);
  return {
    layout: { linesBefore: header.at, hasHeader: true, linesAfterHeader: hasUnitRow ? below.at - header.at : 0 },
    unitRow: hasUnitRow ? below.cells : [],
  };
}

function guessDecimal(lines: readonly string[], data: DataLines, decide: Decide): Pick<Layout, "decimal" | "grouping"> {
  const cells = data.at.flatMap((i) => splitLine(lines[i]!, data.delimiter)).filter(looksNumeric);
  const grouped = cells.find(
    (cell) => /\d[.' \u00a0\u202f]\d{3},\d/u.test(cell) || /\d[,' \u00a0\u202f]\d{3}\.\d/u.test(cell),
  );
  const points = cells.filter((cell) => /^[^,]*\.[^,]*$/u.test(cell)).length;
  const commas = cells.filter((cell) => /^[^.]*,[^.]*$/u.test(cell)).length;
  if (grouped !== undefined) {
    const decimal = grouped.lastIndexOf(",") > grouped.lastIndexOf(".") ? "," : ".";
    const grouping = /\d([., '\u00a0\u202f])\d{3}/u.exec(grouped)![1]!.replace(/[\u00a0\u202f]/u, " ");
    decide("layout.decimal", "likely", `\`${grouped}\` has both signs, the decimal one last`);
    decide("layout.grouping", "likely", `it groups the digits of \`${grouped}\``);
    return { decimal, grouping };
  }
  if (commas === 0) {
    if (points > 0) decide("layout.decimal", "sure", "numbers have a point and none has a comma");
    return { decimal: ".", grouping: "" };
  }
  const looksGrouped = cells.every((cell) => !cell.includes(",") || /^[+-]?[1-9]\d{0,2},\d{3}$/u.test(cell));
  const reason = `${commas} numbers have a comma${points > 0 ? `, but ${points} have a point` : " and none has a point"}`;
  decide("layout.decimal", points > 0 ? "unsure" : looksGrouped ? "likely" : "sure", reason);
  return { decimal: commas >= points ? "," : ".", grouping: "" };
}

/** Comments between the rows, and the line that ends them. */
function guessEnd(
  allLines: readonly string[],
  lines: readonly string[],
  data: DataLines,
  decide: Decide,
): Pick<Layout, "comment" | "stopsAt"> {
  const rows = new Set(data.at);
  const [first, last] = [data.at[0]!, data.at.at(-1)!];
  const between = lines.filter((line, i) => i > first && i < last && line.trim() !== "" && !rows.has(i));
  const mark = commentMarks.find(
    (each) => between.length > 0 && between.every((line) => line.trimStart().startsWith(each)),
  );
  if (mark !== undefined) decide("layout.comment", "likely", `${between.length} lines between the rows start with it`);
  const rest = allLines.length > lines.length ? [] : lines.slice(last + 1).filter((line) => line.trim() !== "");
  const end = rest.find((line) => mark === undefined || !line.trimStart().startsWith(mark));
  const word = end === undefined ? undefined : /^\s*([^\d\s;,|\t][^;,|\t]{0,23})/u.exec(end)?.[1]?.trim();
  if (word !== undefined)
    decide("layout.stops_at", "likely", `the last row stands before the line that starts with it`);
  return { ...(mark && { comment: mark }), ...(word && { stopsAt: word }) };
}
