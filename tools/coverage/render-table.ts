import { figuresOf, missesOf } from "./bar.js";
import type { RowTotals } from "./run-totals.js";
import { lowestShape } from "./run-totals.js";
import type { UnitOutcome } from "./measure-unit.js";
import type { RowName } from "./targets.js";
import { rowKey, symbolOf, targets } from "./targets.js";
import { verdictCharacteristics } from "./verdict-at-limit.js";

/** A table as cells, the header first. */
export type Table = readonly (readonly string[])[];

const named: Readonly<Record<string, string>> = { latency: "L", latencyKept: "L_k", p90: "P90" };

function words(name: string): string {
  return named[name] ?? name.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
}

const percent = (share: number | null): string => (share === null ? "–" : (100 * share).toFixed(1));
const ratio = (value: number | null): string => (value === null ? "–" : value.toFixed(2));

/** Three significant digits, never with an exponent. */
function digits(value: number): string {
  if (value === 0) return "0";
  return value.toFixed(Math.min(9, Math.max(0, 2 - Math.floor(Math.log10(Math.abs(value))))));
}

function withSymbol(value: number | null, name: RowName): string {
  const symbol = symbolOf(name);
  return value === null ? "–" : `${digits(value)}${symbol === "1" ? "" : ` ${symbol}`}`;
}

/** One row a line; the last cell says what the line misses, or "ok". */
export function coverageTable(rows: readonly RowTotals[]): Table {
  const head = [
    "characteristic",
    "of",
    "results",
    "covered %",
    "lowest shape %",
    "mean U",
    "U / MC",
    "bounded %",
    "bias / U",
    "absent %",
    "wrongly given %",
    "bar",
  ];
  const body = rows.map((row) => {
    const figures = figuresOf(row);
    const lowest = lowestShape(row);
    const misses = missesOf(row);
    const { halfWidth } = figures;
    return [
      words(row.name.characteristic),
      targets[row.name.target],
      String(row.all.results),
      percent(figures.covered),
      lowest === null ? "–" : percent(lowest.share),
      withSymbol(halfWidth, row.name),
      ratio(figures.widthRatio),
      percent(figures.boundedShare),
      halfWidth === null || halfWidth === 0 ? "–" : ratio(figures.bias / halfWidth),
      percent(figures.absent),
      percent(figures.given),
      misses.length === 0 ? "ok" : misses.join(", "),
    ];
  });
  return [head, ...body];
}

/** Coverage of each line in runs whose assumptions hold, and do not, side by side. */
export function brokenTable(runs: readonly { readonly title: string; readonly rows: readonly RowTotals[] }[]): Table {
  const lines = runs[0]?.rows ?? [];
  const coverageIn = (rows: readonly RowTotals[], name: RowName): string => {
    const row = rows.find((each) => rowKey(each.name) === rowKey(name));
    return row === undefined ? "–" : percent(figuresOf(row).covered);
  };
  return [
    ["characteristic", "of", ...runs.map(({ title }) => title)],
    ...lines.map(({ name }) => [
      words(name.characteristic),
      targets[name.target],
      ...runs.map(({ rows }) => coverageIn(rows, name)),
    ]),
  ];
}

/** What is said at a limit that lies exactly at the truth, where every statement but "undecided" is a wrong call. */
export function verdictTable(rows: readonly RowTotals[], outcomes: readonly UnitOutcome[]): Table {
  const verdicts = outcomes.flatMap((outcome) => outcome.verdicts);
  return [
    ["characteristic", "key: conforms %", "key: does not %", "unit: conforms %", "unit: does not %"],
    ...verdictCharacteristics.map((characteristic) => {
      const key = rows.find(({ name }) => name.characteristic === characteristic && name.target === "key")!.all;
      const said = verdicts.filter((verdict) => verdict.characteristic === characteristic);
      const share = (outcome: "yes" | "no"): number => said.filter((v) => v.outcome === outcome).length / said.length;
      return [
        words(characteristic),
        percent(key.above / key.results),
        percent(key.below / key.results),
        percent(share("yes")),
        percent(share("no")),
      ];
    }),
  ];
}

/** A table as aligned text; cells of a column that begin with a letter in its second row stand left. */
export function renderText(table: Table): string {
  const widths = table[0]!.map((_, i) => Math.max(...table.map((line) => line[i]!.length)));
  const isText = table[0]!.map((_, i) => /^[A-Za-z]/.test(table[1]?.[i] ?? ""));
  return table
    .map((line) => line.map((cell, i) => (isText[i] ? cell.padEnd(widths[i]!) : cell.padStart(widths[i]!))).join("  "))
    .map((line) => line.trimEnd())
    .join("\n");
}

/** A table in Markdown, numbers to the right. */
export function renderMarkdown(table: Table): string {
  const isText = table[0]!.map((_, i) => /^[A-Za-z]/.test(table[1]?.[i] ?? ""));
  const line = (cells: readonly string[]): string => `| ${cells.join(" | ")} |`;
  return [line(table[0]!), line(isText.map((text) => (text ? "---" : "---:"))), ...table.slice(1).map(line)].join("\n");
}
