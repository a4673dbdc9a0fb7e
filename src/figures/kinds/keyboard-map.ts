import type * as Plot from "@observablehq/plot";
import { extent } from "d3-array";
import { expand } from "../../metrology/expanded.js";
import { placesFor } from "../../metrology/print.js";
import { isQuantity, type Measured } from "../../metrology/quantity.js";
import { chart, type Axis, type Chart } from "../chart.js";
import { chartData } from "../chart-data.js";
import { axisTitle } from "../drawing/axes.js";
import { ellipsize, textWidth } from "../drawing/text-width.js";
import { emptyChart } from "../kit/empty-chart.js";
import { entriesOf, readingsOf, sayAbsent, type Entry } from "../kit/entries.js";
import { keyboardLayout, type LaidKey } from "../kit/keyboard-layout.js";
import { isJudged, limitList, sayStandings, standingToAll, type FigureLimit, type Standing } from "../kit/limits.js";
import { checkOptions } from "../kit/options.js";
import { sayFarthest } from "../kit/say-farthest.js";
import { svgElement, svgText } from "../kit/svg.js";
import { capitalise, commonPlaces, counted, joinWords, roughValue, sayNumber, sentence } from "../kit/words.js";
import { colours, sizes, strokes } from "../theme.js";

export interface KeyboardMapOptions<T> {
  /** W3C code of an item; default its `key`. */
  readonly key?: (item: T, index: number) => string;
  /** Name of the characteristic: "Actuation force". */
  readonly of: string;
  /** Physical layout; default `ansi`. */
  readonly layout?: "ansi" | "iso";
  readonly limits?: FigureLimit | readonly FigureLimit[] | undefined;
}

const known = ["key", "of", "layout", "limits"];

/** Gap between keys, px, and the height of a key against its width. */
const gapPx = 3;
const keyRatio = 1;

/** Bold figures are wider than the plain ones that were measured. */
const boldWider = 1.07;

/**
 * Measured values on a drawn keyboard: the value in its key, keys tinted in five steps from the least to the greatest
 * value, keys outside limits framed strongly, undecided ones in dashes, keys without a value in outline.
 *
 * @param items keys with their W3C UI Events codes
 * @param value the measured value of a key; an absent one is marked in its key and named
 * @param options `of`, `key`, `layout`, `limits`
 * @throws RangeError on an unknown option, a key given twice, mixed units of measure
 */
export function keyboardMap<T>(
  items: readonly T[],
  value: (item: T, index: number) => Measured,
  options: KeyboardMapOptions<T>,
): Chart {
  checkOptions(options, known, "keyboard map");
  const label = options.key === undefined ? {} : { label: options.key };
  const entries = entriesOf(items, value, label, "keyboard map");
  const twice = entries.find((entry, index) => entries.findIndex((other) => other.label === entry.label) < index);
  if (twice !== undefined) throw new RangeError(`the keyboard map got ${twice.label} twice`);
  const symbol = entries[0]?.measured.symbol ?? "1";
  const limits = limitList(options.limits, symbol, "keyboard map");
  const x: Axis = { label: "Place on the keyboard", domain: [0, 1], hidden: true };
  const y: Axis = { label: options.of, symbol, domain: [0, 1], hidden: true };
  const data = chartData(entries, [
    { name: "key", label: "Key", value: (entry) => entry.label },
    { name: "value", label: options.of, symbol, value: (entry) => entry.measured },
    ...(limits.some(isJudged)
      ? [{ name: "against_limits", label: "Against the limits", value: (entry: Entry) => standingOf(entry, limits) }]
      : []),
  ]);
  const readings = readingsOf(entries);
  if (readings.length === 0) {
    return emptyChart(
      entries.length === 0 ? "No key was measured." : capitalise(sentence(sayAbsent(entries))),
      { x, y },
      data,
    );
  }
  const laid = keyboardLayout(options.layout ?? "ansi");
  const shown = shownKeys(laid, new Set(entries.map((entry) => entry.label)));
  const beyond = entries.filter((entry) => !laid.some((key) => key.code === entry.label)).map((entry) => entry.label);
  const faces = shown.map((key) => faceOf(key, entries, limits));
  const unmeasured = faces.filter((face) => face.text === "" && face.key.code.startsWith("Key")).length;
  const rows = shown.map((key) => key.row);
  const count = Math.max(...rows) - Math.min(...rows) + 1;
  return chart(
    {
      marks: [keysMark(faces, axisTitle({ label: options.of, symbol }))],
      x,
      y,
      height: Math.round(count * keyPx(shown, sizes.widthPx) * keyRatio) + 38,
      marginTop: 32,
      marginBottom: 6,
      marginLeft: 1,
      marginRight: 1,
      note: noteOf(entries, limits, unmeasured, beyond, symbol),
    },
    {
      finding: sentence(
        sayFarthest(readings, "key"),
        ...limits.filter(isJudged).map((limit) => sayStandings(readings, limit, "key")),
        sayAbsent(entries),
      ),
      data,
    },
  );
}

interface Face {
  readonly key: LaidKey;
  readonly text: string;
  readonly fill: string;
  readonly standing: Standing | "none";
}

/** The rows of letters and the space bar always; the row of digits and wide keys where one of them was measured. */
function shownKeys(laid: readonly LaidKey[], measured: ReadonlySet<string>): readonly LaidKey[] {
  const withDigits = laid.some((key) => key.row === 0 && measured.has(key.code));
  return laid.filter(
    (key) => measured.has(key.code) || (key.row === 0 ? withDigits : key.code === "Space" || key.width === 1),
  );
}

function faceOf(key: LaidKey, entries: readonly Entry[], limits: readonly FigureLimit[]): Face {
  const entry = entries.find((candidate) => candidate.label === key.code);
  if (entry === undefined) return { key, text: "", fill: colours.paper, standing: "none" };
  if (entry.measured.absent) return { key, text: "none", fill: colours.paper, standing: "none" };
  const standing = standingToAll(entry.measured, limits);
  return { key, text: roughValue(entry.measured), fill: tintOf(entry.measured.value, entries), standing };
}

/** The step of a value between the least and the greatest; no tint where all print alike. */
function tintOf(value: number, entries: readonly Entry[]): string {
  const quantities = entries.flatMap(({ measured }) => (isQuantity(measured) ? [measured] : []));
  const [low, high] = extent(quantities.map((quantity) => quantity.value)) as [number, number];
  const isFlat = (high - low) * 10 ** commonPlaces(quantities) < 0.5;
  const step = isFlat ? 0 : Math.min(4, Math.floor(((value - low) / (high - low)) * 5));
  return colours.tints[step]!;
}

function keyPx(keys: readonly LaidKey[], widthPx: number): number {
  const left = Math.min(...keys.map((key) => key.x));
  const right = Math.max(...keys.map((key) => key.x + key.width));
  return (widthPx - 2) / (right - left);
}

function keysMark(faces: readonly Face[], title: string): Plot.RenderFunction {
  return (_index, _scales, _values, dimensions, context) => {
    const keys = faces.map((face) => face.key);
    const left = Math.min(...keys.map((key) => key.x));
    const top = Math.min(...keys.map((key) => key.row));
    const pitch = keyPx(keys, dimensions.width);
    const rowPitch =
      (dimensions.height - dimensions.marginTop - dimensions.marginBottom) /
      (Math.max(...keys.map((key) => key.row)) - top + 1);
    return svgElement(context, "g", {}, [
      svgText(context, 1, 15, title),
      ...faces.flatMap((face) => {
        const x = 1 + (face.key.x - left) * pitch;
        const y = dimensions.marginTop + (face.key.row - top) * rowPitch;
        const width = face.key.width * pitch - gapPx;
        const isFramed = face.standing === "outside";
        const frame = svgElement(context, "rect", {
          x: x + gapPx / 2,
          y: y + gapPx / 2,
          width,
          height: rowPitch - gapPx,
          rx: 3,
          fill: face.fill,
          stroke: isFramed ? colours.second : face.text === "" ? colours.faint : colours.ink,
          "stroke-width": isFramed ? 2.8 : strokes.axis,
          "stroke-dasharray": face.standing === "undecided" ? "3 2" : undefined,
        });
        const middle = x + pitch * (face.key.width / 2);
        const isNamed = face.text !== "" || face.key.code.startsWith("Key");
        const name = nameOn(face.key.code, width - 2);
        const quiet = { anchor: "middle", sizePx: sizes.smallPx, fill: colours.quiet } as const;
        return [
          frame,
          ...(isNamed
            ? [
                svgText(context, middle, y + rowPitch * (face.text === "" ? 0.5 : 0.3), name, {
                  ...quiet,
                  ...(face.text === "" ? {} : { fill: colours.ink }),
                }),
              ]
            : []),
          ...(face.text === ""
            ? []
            : [
                svgText(context, middle, y + rowPitch * 0.68, face.text, {
                  anchor: "middle",
                  ...(textWidth(face.text, sizes.textPx) * boldWider > width - 4 ? { sizePx: sizes.smallPx } : {}),
                  ...(face.text === "none" ? { italic: true } : { weight: "bold" as const }),
                }),
              ]),
        ];
      }),
    ]);
  };
}

/** The code of a key; without "Key" or "Digit" where the drawing is too narrow for it. */
function nameOn(code: string, widthPx: number): string {
  const isWhole = textWidth(code, sizes.smallPx) <= widthPx;
  return isWhole ? code : ellipsize(code.replace(/^(Key|Digit)/, ""), widthPx, sizes.smallPx);
}

function standingOf({ measured }: Entry, limits: readonly FigureLimit[]): string {
  return measured.absent ? "no value" : standingToAll(measured, limits).replace("not_judged", "");
}

function noteOf(
  entries: readonly Entry[],
  limits: readonly FigureLimit[],
  unmeasured: number,
  beyond: readonly string[],
  symbol: string,
): string {
  const quantities = readingsOf(entries).map((entry) => entry.measured);
  const [low, high] = extent(quantities.map((quantity) => expand(quantity).U)) as [number, number];
  const sayU = (U: number): string => sayNumber(U, symbol, U > 0 ? placesFor(U, 2) : 0);
  const U =
    high === 0 ? "" : sayU(low) === sayU(high) ? `Each ± ${sayU(high)}.` : `Each ± ${sayU(low)} to ${sayU(high)}.`;
  const standings = new Set(quantities.map((quantity) => standingToAll(quantity, limits)));
  return [
    quantities.length > 1 ? "Tint: least to greatest in five steps." : "",
    U,
    standings.has("outside") ? "Strong frame: outside the limits." : "",
    standings.has("undecided") ? "Dashed: undecided." : "",
    unmeasured > 0 ? `${capitalise(counted(unmeasured, "alphabetic key"))} not measured.` : "",
    beyond.length > 0 ? `Not on the drawn keyboard: ${joinWords(beyond)}.` : "",
  ]
    .filter((part) => part !== "")
    .join(" ");
}
