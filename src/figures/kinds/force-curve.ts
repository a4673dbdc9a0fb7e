import * as Plot from "@observablehq/plot";
import { closest } from "fastest-levenshtein";
import type { CycleReduction, KeyReduction } from "../../keystroke/model.js";
import { isQuantity } from "../../metrology/quantity.js";
import { chart, type Axis, type Chart, type ChartData, type DataCell } from "../chart.js";
import { safeLabel } from "../drawing/safe-text.js";
import { emptyChart } from "../kit/empty-chart.js";
import { checkOptions } from "../kit/options.js";
import { pointLabels } from "../kit/point-labels.js";
import { sayThinned, thin } from "../kit/thin.js";
import { counted, joinWords, sayNumber, sayQuantity, sayValue, sentence } from "../kit/words.js";
import { colours, strokes } from "../theme.js";
import { labelOfPoint, pointsOf, strokeLabels, type LocatedPoint } from "./force-curve-points.js";

export interface ForceCurveOptions {
  /** The key whose curve is drawn: the session's representative key, or any other by its code. */
  readonly key: string;
  /** Draw the press strokes of the other keys faintly behind it; default true. */
  readonly others?: boolean;
}

/** Forces beyond this multiple of the largest marked force are cut off, since the end stop has no end. */
const headroom = 1.35;

/** Rows of the table that all curves together may fill. */
const tableRows = 360;

const x: Axis = { label: "Displacement", symbol: "mm", grid: true };
const y: Axis = { label: "Force", symbol: "cN" };

/**
 * One key's force-displacement curve, a real cycle (the key's median one) and never a mean: press and release, the area
 * between them shaded, and its points marked with their values. The other keys' press strokes stand faintly behind it.
 *
 * @param keys the keys of a session, as reduced
 * @param options `key`: whose curve; `others`: whether the other keys are drawn
 * @throws RangeError on an unknown option, or a key that is not there (with the nearest that is)
 */
export function forceCurve(keys: readonly KeyReduction[], options: ForceCurveOptions): Chart {
  checkOptions(options, ["key", "others"], "force curve");
  const key = keys.find((candidate) => candidate.key === options.key);
  if (key === undefined) throw new RangeError(missingKey(options.key, keys));
  const cycle = key.cycles.find((candidate) => candidate.cycle === key.medianCycle);
  const name = safeLabel(key.key);
  if (cycle === undefined || cycle.curve.press.length < 2) {
    return emptyChart(
      `${name} has no press stroke to draw.`,
      { x, y },
      { columns: [{ name: "part", label: "Part" }], rows: [] },
    );
  }
  const points = pointsOf(cycle);
  const others = options.others === false ? [] : keys.flatMap((other) => (other === key ? [] : [medianPress(other)]));
  const drawnOthers = others.filter((curve) => curve.length >= 2);
  const { press, release } = cycle.curve;
  const largest = Math.max(...points.map((point) => point.force.value), 1);
  const all = [press, release, ...drawnOthers].flat();
  const highest = Math.max(...all.map(([, cN]) => cN));
  const top = Math.min(highest, headroom * largest);
  const note = [
    release.length < 2
      ? "No release stroke was recorded."
      : `Shaded: work lost between press and release${lossWords(cycle)}.`,
    drawnOthers.length === 0 ? "" : `Faint: press strokes of the ${counted(drawnOthers.length, "other key")}.`,
    highest > top ? "Forces beyond the end of the travel are cut off." : "",
  ];
  const visible = press.filter(([, cN]) => cN <= top);
  return chart(
    {
      marks: [
        release.length < 2
          ? null
          : Plot.line([...press, ...release], {
              curve: "linear-closed",
              fill: colours.shade,
              stroke: "none",
              clip: true,
            }),
        ...drawnOthers.map((curve) =>
          Plot.line(curve, { stroke: colours.faint, strokeWidth: strokes.faint, clip: true }),
        ),
        Plot.line(release, { stroke: colours.second, strokeWidth: strokes.curve, strokeDasharray: "6 3", clip: true }),
        Plot.line(press, { stroke: colours.first, strokeWidth: strokes.curve, clip: true }),
        ...points.map((point) =>
          Plot.dot([point], {
            x: () => point.position.value,
            y: () => point.force.value,
            symbol: point.symbol,
            r: 4.5,
            fill: point.hollow ? colours.paper : colours.ink,
            stroke: point.hollow ? colours.ink : colours.paper,
            strokeWidth: point.hollow ? strokes.curve : 1,
          }),
        ),
        pointLabels(
          [...points.map(labelOfPoint), ...strokeLabels(visible, release, top)],
          [visible, release.filter(([, cN]) => cN <= top)],
          drawnOthers,
        ),
      ],
      x: { ...x, domain: [Math.min(0, ...all.map(([mm]) => mm)), Math.max(...all.map(([mm]) => mm)) * 1.02] },
      y: { ...y, domain: [Math.min(0, ...all.map(([, cN]) => cN)), top * 1.05] },
      height: 340,
      note: note.filter((part) => part !== "").join(" "),
    },
    { finding: findingOf(key, cycle, points), data: dataOf(key, cycle, keys, drawnOthers.length > 0) },
  );
}

function medianPress(key: KeyReduction): readonly (readonly [number, number])[] {
  return key.cycles.find((cycle) => cycle.cycle === key.medianCycle)?.curve.press ?? [];
}

function lossWords(cycle: CycleReduction): string {
  const loss = cycle.characteristics.hysteresisLoss;
  return isQuantity(loss) ? `, ${sayQuantity(loss)}` : "";
}

function findingOf(key: KeyReduction, cycle: CycleReduction, points: readonly LocatedPoint[]): string {
  const at = (name: string): string | undefined => {
    const point = points.find((candidate) => candidate.name === name);
    return point === undefined ? undefined : `${sayValue(point.position)} and ${sayValue(point.force)}`;
  };
  const said = [
    [at("actuation"), "actuates at"],
    [at("reset"), "resets at"],
    [at("bottom-out"), "bottoms out at"],
  ].flatMap(([where, verb]) => (where === undefined ? [] : [`${verb} ${where}`]));
  const { peakForce, valleyForce } = cycle.characteristics;
  const which = `${safeLabel(key.key)}, cycle ${cycle.cycle} of ${key.cycles.length},`;
  const drop =
    isQuantity(peakForce) && isQuantity(valleyForce)
      ? `, ${sayNumber(peakForce.value - valleyForce.value, "cN", 1)} above the valley after it`
      : "";
  return sentence(
    said.length === 0
      ? `${which} has no point of actuation, reset or bottom-out that could be located`
      : `${which} ${joinWords(said)}`,
    peakForce.absent
      ? `no tactile peak (${peakForce.reason})`
      : `its tactile peak of ${sayValue(peakForce)} lies at ${at("tactile peak")?.split(" and ")[0] ?? "an unknown position"}${drop}`,
  );
}

function dataOf(key: KeyReduction, cycle: CycleReduction, keys: readonly KeyReduction[], others: boolean): ChartData {
  const curves = [
    { part: "press", key: key.key, points: cycle.curve.press },
    { part: "release", key: key.key, points: cycle.curve.release },
    ...(others
      ? keys
          .filter((other) => other !== key)
          .map((other) => ({ part: "press", key: other.key, points: medianPress(other) }))
      : []),
  ];
  const most = Math.max(8, Math.floor(tableRows / curves.length));
  const thinned = curves.map((curve) => ({ ...curve, ...thin(curve.points, most) }));
  const marked = pointsOf(cycle).map((point): readonly DataCell[] => [
    point.name,
    safeLabel(key.key),
    point.position,
    point.force,
  ]);
  const note = sayThinned(thinned.map((curve) => curve.every));
  return {
    columns: [
      { name: "part", label: "Part" },
      { name: "key", label: "Key" },
      { name: "displacement", label: "Displacement", symbol: "mm" },
      { name: "force", label: "Force", symbol: "cN" },
    ],
    rows: [
      ...marked,
      ...thinned.flatMap((curve) =>
        curve.points.map(([mm, cN]): readonly DataCell[] => [curve.part, safeLabel(curve.key), mm, cN]),
      ),
    ],
    ...(note === undefined ? {} : { note }),
  };
}

function missingKey(wanted: string, keys: readonly KeyReduction[]): string {
  if (keys.length === 0) return `the force curve has no keys to choose "${wanted}" from`;
  const codes = keys.map((key) => key.key);
  return `the force curve has no key "${wanted}"; did you mean "${closest(wanted, codes)}"? (${joinWords(codes, 12)})`;
}
