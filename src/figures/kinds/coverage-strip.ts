import type * as Plot from "@observablehq/plot";
import { closest } from "fastest-levenshtein";
import { chart, type Axis, type Chart } from "../chart.js";
import { chartData } from "../chart-data.js";
import { safeLabel } from "../drawing/safe-text.js";
import { textWidth } from "../drawing/text-width.js";
import { emptyChart } from "../kit/empty-chart.js";
import { labelOf, nounOf, type LabelOptions } from "../kit/entries.js";
import { checkOptions } from "../kit/options.js";
import { svgElement, svgText, type DrawContext } from "../kit/svg.js";
import { capitalise, counted, joinWords, pluralOf, sayShare, sentence } from "../kit/words.js";
import { colours, sizes, strokes } from "../theme.js";

export interface CoverageStripOptions<T> extends LabelOptions<T> {
  /** The states in their order, at most four: "retested", "pending", "withdrawn". */
  readonly states: readonly string[];
}

interface Band {
  readonly state: string;
  readonly labels: readonly string[];
  /** First row of its cells. */
  readonly row: number;
}

const rowPx = 26;
const bandGapPx = 8;
const cellGapPx = 3;

/**
 * Which items are in which state: a cell an item, one band a state, each state with a look of its own (filled, outlined,
 * dashed, crossed out), its count and share beside it. Short labels stand in their cells.
 *
 * @param items units or anything with a label, drawn in the given order within each state
 * @param state the state of an item, one of `states`
 * @param options `states`, `label`, `noun`
 * @throws RangeError on an unknown option, no states or more than four, a state that is not among them (with the nearest)
 */
export function coverageStrip<T>(
  items: readonly T[],
  state: (item: T, index: number) => string,
  options: CoverageStripOptions<T>,
): Chart {
  checkOptions(options, ["label", "noun", "states"], "coverage strip");
  const { states } = options;
  if (!(states.length >= 1 && states.length <= 4))
    throw new RangeError(`the coverage strip has ${states.length} states; it must have 1 to 4`);
  const cells = items.map((item, index) => {
    const given = state(item, index);
    if (!states.includes(given))
      throw new RangeError(`the coverage strip has no state "${given}"; did you mean "${closest(given, states)}"?`);
    return { label: labelOf(item, index, options, "coverage strip"), state: given };
  });
  const noun = nounOf(items, options);
  const x: Axis = { label: pluralOf(capitalise(noun)), hidden: true, domain: [0, 1] };
  const y: Axis = { label: "State", hidden: true, domain: [0, 1] };
  const data = chartData(cells, [
    { name: noun, label: capitalise(noun), value: (cell) => cell.label },
    { name: "state", label: "State", value: (cell) => cell.state },
  ]);
  if (cells.length === 0) return emptyChart(`There are no ${pluralOf(noun)} to show.`, { x, y }, data);
  const widest = Math.max(...cells.map((cell) => textWidth(cell.label, sizes.smallPx)));
  const isNamed = widest <= 44;
  const marginLeft = Math.ceil(Math.max(...states.map((name) => textWidth(safeLabel(name), sizes.textPx)))) + 14;
  const rights = states.map((name) => {
    const count = cells.filter((cell) => cell.state === name).length;
    return `${count}, ${sayShare(count / cells.length)}`;
  });
  const marginRight = Math.ceil(Math.max(...rights.map((text) => textWidth(text, sizes.textPx)))) + 12;
  const perRow = Math.max(
    4,
    Math.floor((sizes.widthPx - marginLeft - marginRight) / (isNamed ? Math.max(22, widest + 10) : 16)),
  );
  let row = 0;
  const bands = states.map((name): Band => {
    const labels = cells.filter((cell) => cell.state === name).map((cell) => cell.label);
    const band = { state: safeLabel(name), labels, row };
    row += Math.max(1, Math.ceil(labels.length / perRow));
    return band;
  });
  return chart(
    {
      marks: [cellsMark(bands, rights, perRow, isNamed)],
      x,
      y,
      height: row * rowPx + (states.length - 1) * bandGapPx + 12,
      marginTop: 6,
      marginBottom: 6,
      marginLeft,
      marginRight,
    },
    {
      finding: sentence(
        `of ${counted(cells.length, noun)}, ${bands.map((band) => `${band.labels.length} ${band.state}`).join(", ")}`,
        ...bands
          .slice(1)
          .flatMap((band) =>
            band.labels.length > 0 && band.labels.length <= 4 ? [`${band.state}: ${joinWords(band.labels)}`] : [],
          ),
      ).replace(/^of/, "Of"),
      data,
    },
  );
}

function cellsMark(
  bands: readonly Band[],
  rights: readonly string[],
  perRow: number,
  isNamed: boolean,
): Plot.RenderFunction {
  return (_index, _scales, _values, dimensions, context) => {
    const width = (dimensions.width - dimensions.marginLeft - dimensions.marginRight) / perRow;
    return svgElement(
      context,
      "g",
      {},
      bands.flatMap((band, look) => {
        const top = dimensions.marginTop + band.row * rowPx + look * bandGapPx;
        const middle = top + rowPx / 2;
        return [
          svgText(context, 1, middle, band.state),
          svgText(context, dimensions.width - dimensions.marginRight + 12, middle, rights[look]!),
          ...(band.labels.length === 0
            ? [svgText(context, dimensions.marginLeft + 4, middle, "none", { italic: true, fill: colours.quiet })]
            : []),
          ...band.labels.flatMap((label, index) => {
            const x = dimensions.marginLeft + (index % perRow) * width + cellGapPx / 2;
            const y = top + Math.floor(index / perRow) * rowPx + cellGapPx / 2;
            return cell(
              context,
              { x, y, width: width - cellGapPx, height: rowPx - cellGapPx },
              isNamed ? label : "",
              look,
            );
          }),
        ];
      }),
    );
  };
}

interface CellBox {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** A cell in the look of its state: 0 filled, 1 outlined, 2 dashed, 3 crossed out. */
function cell(context: DrawContext, box: CellBox, label: string, look: number): readonly SVGElement[] {
  const { x, y, width, height } = box;
  const parts = [
    svgElement(context, "rect", {
      ...box,
      fill: look === 0 ? colours.first : "none",
      stroke: look === 0 ? colours.first : colours.ink,
      "stroke-width": strokes.axis,
      "stroke-dasharray": look === 2 ? "3 2" : undefined,
    }),
  ];
  if (look === 3)
    parts.push(
      svgElement(context, "line", {
        x1: x,
        y1: y + height,
        x2: x + width,
        y2: y,
        stroke: colours.faint,
        "stroke-width": strokes.thin,
      }),
    );
  if (label !== "" && textWidth(label, sizes.smallPx) <= width - 1) {
    parts.push(
      svgText(context, x + width / 2, y + height / 2, label, {
        anchor: "middle",
        sizePx: sizes.smallPx,
        fill: look === 0 ? colours.paper : colours.ink,
        halo: look === 3,
      }),
    );
  }
  return parts;
}
