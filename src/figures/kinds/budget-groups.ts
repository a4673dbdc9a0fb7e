import * as Plot from "@observablehq/plot";
import { budgetOf } from "../../metrology/budget.js";
import { roundSignificant } from "../../metrology/print.js";
import type { Measured } from "../../metrology/quantity.js";
import { chart, type Chart } from "../chart.js";
import { chartData } from "../chart-data.js";
import { safeLabel } from "../drawing/safe-text.js";
import { spanOf } from "../kit/domain.js";
import { emptyChart } from "../kit/empty-chart.js";
import { entriesOf, nounOf, readingsOf, sayAbsent, type LabelOptions, type Reading } from "../kit/entries.js";
import { checkOptions } from "../kit/options.js";
import { rowFrame } from "../kit/rows.js";
import { capitalise, counted, pluralOf, sayPair, sayShare, sentence } from "../kit/words.js";
import { colours, sizes } from "../theme.js";

export interface BudgetGroupsOptions<T> extends LabelOptions<T> {
  /** Lines of each item drawn one by one, 1 to 20; the smaller ones are gathered in a last line. Default 4. */
  readonly most?: number;
}

interface Line {
  readonly item: string;
  readonly source: string;
  readonly type: string;
  readonly contribution: number;
  readonly share: number;
}

type Row =
  | { readonly kind: "item"; readonly label: string; readonly pair: string; readonly u: number }
  | ({ readonly kind: "line" } & Line);

const half = 0.3;

/**
 * The uncertainty budgets of several quantities on one scale: under each item its combined standard uncertainty and the
 * contribution of each line, largest first, with its share of u². Bars add in quadrature: shares sum to the whole, lengths not.
 *
 * @param items connections, keys or anything with a label, in their order
 * @param value the quantity of an item; one without value or without uncertainty is said and not drawn
 * @param options `most`, `label`, `noun`
 * @throws RangeError on an unknown option, `most` out of range, mixed units of measure
 */
export function budgetGroups<T>(
  items: readonly T[],
  value: (item: T, index: number) => Measured,
  options: BudgetGroupsOptions<T> = {},
): Chart {
  checkOptions(options, ["label", "noun", "most"], "budget groups");
  const most = options.most ?? 4;
  if (!(most >= 1 && most <= 20 && Number.isInteger(most)))
    throw new RangeError(`the budget groups draw ${most} lines an item; it must be 1 to 20`);
  const entries = entriesOf(items, value, options, "budget groups");
  const noun = nounOf(items, options);
  const symbol = entries[0]?.measured.symbol ?? "1";
  const drawn = readingsOf(entries).filter((reading) => reading.measured.u > 0);
  const lines = drawn.map(linesOf);
  const x = { label: "Contribution to standard uncertainty", symbol };
  const data = chartData(lines.flat(), [
    { name: noun, label: capitalise(noun), value: (line) => line.item },
    { name: "source", label: "Source", value: (line) => line.source },
    { name: "type", label: "Type", value: (line) => line.type },
    { name: "contribution", label: "Contribution", symbol, value: (line) => line.contribution },
    { name: "share", label: "Share of u²", value: (line) => line.share },
  ]);
  if (drawn.length === 0) {
    const words = entries.length === 0 ? `there are no ${pluralOf(noun)} to show` : sayAbsent(entries);
    return emptyChart(
      capitalise(sentence(words || `no ${noun} states an uncertainty`)),
      { x, y: { label: "Source" } },
      data,
    );
  }
  const rows = drawn.flatMap(({ label, measured }, at): readonly Row[] => [
    { kind: "item", label, pair: sayPair(measured), u: measured.u },
    ...gather(lines[at]!, most).map((line) => ({ kind: "line", ...line }) as const),
  ]);
  const frame = rowFrame(
    rows.map((row) =>
      row.kind === "item"
        ? { label: "", right: `${roundSignificant(row.u, 2)}, combined` }
        : { label: row.source, right: `${roundSignificant(row.contribution, 2)}, ${sayShare(row.share)}` },
    ),
    { title: `${capitalise(noun)}, source`, rightTitle: "u, share of u²", widestLabelPx: 205 },
  );
  const bars = rows.map((row, y) => ({ y, x2: row.kind === "item" ? row.u : row.contribution, kind: row.kind }));
  return chart(
    {
      marks: [
        ...frame.under,
        ...(["line", "item"] as const).map((kind) =>
          Plot.rect(
            bars.filter((bar) => bar.kind === kind),
            {
              x1: 0,
              x2: "x2",
              y1: ({ y }) => y - half,
              y2: ({ y }) => y + half,
              fill: kind === "item" ? colours.ink : colours.first,
            },
          ),
        ),
        ...frame.over,
        Plot.text(
          rows.flatMap((row, y) => (row.kind === "item" ? [{ y, text: `${row.label}  ${row.pair}` }] : [])),
          {
            y: "y",
            text: "text",
            frameAnchor: "left",
            textAnchor: "start",
            dx: 1 - frame.marginLeft,
            fontWeight: "bold",
            fontSize: sizes.textPx,
            fill: colours.ink,
          },
        ),
      ],
      x: { ...x, domain: spanOf([0, ...bars.map(({ x2 }) => x2)], { zero: true }), grid: true },
      y: frame.y,
      height: frame.height,
      marginLeft: frame.marginLeft,
      marginRight: frame.marginRight,
    },
    { finding: findingOf(lines, entries.length - drawn.length, noun), data },
  );
}

function linesOf({ label, measured }: Reading): readonly Line[] {
  return budgetOf(measured).lines.map(({ label: source, type, contribution, share }) => ({
    item: label,
    source: safeLabel(source),
    type,
    contribution,
    share,
  }));
}

/** The largest lines, and one that holds the rest where more than one is left. */
function gather(lines: readonly Line[], most: number): readonly Line[] {
  if (lines.length <= most + 1) return lines;
  const rest = lines.slice(most);
  return [
    ...lines.slice(0, most),
    {
      item: rest[0]!.item,
      source: counted(rest.length, "further line"),
      type: "",
      contribution: Math.hypot(...rest.map((line) => line.contribution)),
      share: rest.reduce((sum, line) => sum + line.share, 0),
    },
  ];
}

/** The largest line of each budget, said once where it is the same for all. */
function findingOf(lines: readonly (readonly Line[])[], missing: number, noun: string): string {
  const firsts = lines.map(([first]) => first!);
  const shares = firsts.map(({ share }) => share);
  const [least, largest] = [Math.min(...shares), Math.max(...shares)];
  const same = firsts.every(({ source }) => source === firsts[0]!.source);
  const span = sayShare(least) === sayShare(largest) ? sayShare(least) : `${sayShare(least)} to ${sayShare(largest)}`;
  const said = same
    ? [`“${firsts[0]!.source}” is the largest line of ${lines.length === 1 ? "the" : "every"} budget, ${span} of u²`]
    : firsts.map(({ item, source, share }) => `the largest line of ${item} is “${source}”, ${sayShare(share)} of u²`);
  return capitalise(sentence(...said, missing === 0 ? "" : `${counted(missing, noun)} without a budget`));
}
