import * as Plot from "@observablehq/plot";
import { budgetOf } from "../../metrology/budget.js";
import type { Measured } from "../../metrology/quantity.js";
import { roundSignificant } from "../../metrology/print.js";
import { chart, type Chart } from "../chart.js";
import { chartData } from "../chart-data.js";
import { safeLabel } from "../drawing/safe-text.js";
import { spanOf } from "../kit/domain.js";
import { emptyChart } from "../kit/empty-chart.js";
import { checkOptions } from "../kit/options.js";
import { rowFrame } from "../kit/rows.js";
import { capitalise, counted, sayQuantity, sayShare, sentence } from "../kit/words.js";
import { colours } from "../theme.js";

export interface BudgetBarsOptions {
  /** Lines drawn one by one, 1 to 20; the smaller ones are gathered in a last line. Default 8. */
  readonly most?: number;
}

interface Line {
  readonly label: string;
  readonly type: string;
  readonly contribution: number;
  readonly share: number;
}

/**
 * The uncertainty budget of one quantity: the contribution of each line to the standard uncertainty as a bar from zero, its
 * share of u², and the combined u below. Bars add in quadrature, so their shares and not their lengths sum to the whole.
 *
 * @param quantity any measured value; an absent one, or one without uncertainty, says so in words
 * @param options `most`
 * @throws RangeError on an unknown option, or `most` out of range
 */
export function budgetBars(quantity: Measured, options: BudgetBarsOptions = {}): Chart {
  checkOptions(options, ["most"], "budget bars");
  const most = options.most ?? 8;
  if (!(most >= 1 && most <= 20 && Number.isInteger(most)))
    throw new RangeError(`the budget bars draw ${most} lines; it must be 1 to 20`);
  const x = { label: "Contribution to standard uncertainty", symbol: quantity.symbol };
  const y = { label: "Source" };
  const columns = [
    { name: "source", label: "Source", value: (line: Line) => line.label },
    { name: "type", label: "Type", value: (line: Line) => line.type },
    { name: "contribution", label: "Contribution", symbol: quantity.symbol, value: (line: Line) => line.contribution },
    { name: "share", label: "Share of u²", value: (line: Line) => line.share },
  ];
  if (quantity.absent)
    return emptyChart(`There is no value, and so no budget: ${quantity.reason}.`, { x, y }, chartData([], columns));
  const budget = budgetOf(quantity);
  if (budget.lines.length === 0) {
    return emptyChart(
      `${sayQuantity(quantity)} states no uncertainty, so there is no budget to show.`,
      { x, y },
      chartData([], columns),
    );
  }
  const lines = budget.lines.map(({ label, type, contribution, share }): Line => ({
    label: safeLabel(label),
    type,
    contribution,
    share,
  }));
  const drawn = gather(lines, most);
  const frame = rowFrame(
    [
      ...drawn.map((line) => ({
        label: line.label,
        right: `${roundSignificant(line.contribution, 2)}, ${sayShare(line.share)}`,
      })),
      { label: "combined u", right: roundSignificant(budget.u, 2) },
    ],
    { title: "Source", rightTitle: "u, share of u²", widestLabelPx: 205 },
  );
  const half = 0.3;
  return chart(
    {
      marks: [
        ...frame.under,
        Plot.rect(drawn, {
          x1: 0,
          x2: "contribution",
          y1: (_: Line, row: number) => row - half,
          y2: (_: Line, row: number) => row + half,
          fill: colours.first,
        }),
        Plot.rect([budget.u], {
          x1: 0,
          x2: budget.u,
          y1: drawn.length - half,
          y2: drawn.length + half,
          fill: colours.ink,
        }),
        ...frame.over,
      ],
      x: { ...x, domain: spanOf([0, budget.u], { zero: true }), grid: true },
      y: frame.y,
      height: frame.height,
      marginLeft: frame.marginLeft,
      marginRight: frame.marginRight,
    },
    { finding: findingOf(lines, sayQuantity(quantity)), data: chartData(lines, columns) },
  );
}

/** The largest lines, and one that holds the rest where more than one is left. */
function gather(lines: readonly Line[], most: number): readonly Line[] {
  if (lines.length <= most + 1) return lines;
  const rest = lines.slice(most);
  return [
    ...lines.slice(0, most),
    {
      label: counted(rest.length, "further line"),
      type: "",
      contribution: Math.hypot(...rest.map((line) => line.contribution)),
      share: rest.reduce((sum, line) => sum + line.share, 0),
    },
  ];
}

function findingOf(lines: readonly Line[], text: string): string {
  const [first] = lines;
  if (lines.length === 1) return sentence(`all of the uncertainty of ${text} comes from “${first!.label}”`);
  let share = 0;
  const count = lines.findIndex((line) => (share += line.share) >= 0.9 - 1e-12) + 1;
  const together =
    count < 2 || count === lines.length ? "" : `the ${count} largest of ${lines.length} lines make ${sayShare(share)}`;
  return capitalise(sentence(`of u² of ${text}, ${sayShare(first!.share)} comes from “${first!.label}”`, together));
}
