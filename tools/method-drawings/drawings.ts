import * as Plot from "@observablehq/plot";
import { drawChart } from "../../src/figures/draw.js";
import { chart, forceCurve } from "../../src/figures/index.js";
import type { Chart } from "../../src/figures/index.js";
import { colours, lightPalette, strokes } from "../../src/figures/theme.js";
import { reduceKeystroke, reductionContext } from "../../src/keystroke/index.js";
import type { KeyReduction, KeystrokeReduction } from "../../src/keystroke/index.js";
import type { Archive, KeystrokeMethod } from "../../src/records/archive.js";
import { readArchive, readStrokes } from "../../src/records/index.js";
import type { Stroke } from "../../src/records/readings.js";

/** A drawing of docs/methods.md: file name without folder, and its SVG. */
export interface MethodDrawing {
  readonly name: string;
  readonly svg: string;
}

interface Reduced {
  /** Of the calibration in force: the tester gives way under force, and drawn curves are corrected for it. */
  readonly complianceMmPerCn: number;
  readonly reduction: KeystrokeReduction;
  readonly strokes: readonly Stroke[];
}

/** Every drawing, made from the demo archive by the tool's own reduction and figures. */
export function methodDrawings(dataFolder: string): readonly MethodDrawing[] {
  const archive = readArchive(dataFolder);
  const linear = reduceUnit(archive, "u01");
  const tactile = reduceUnit(archive, "u08");
  return [
    standAlone("linear-key", representative(linear), "A linear key: actuation, reset, bottom-out"),
    standAlone("tactile-key", representative(tactile), "A tactile key: peak, valley, actuation, reset, bottom-out"),
    standAlone("touch", nearPoint(linear, "touch"), "Touch: where the force leaves the level of the approach"),
    standAlone("bottom-out", nearPoint(linear, "bottom"), "Bottom-out: where the slope passes the method's limit"),
  ];
}

function reduceUnit(archive: Archive, unitId: string): Reduced {
  const unit = archive.units.find(({ id }) => id === unitId)!;
  const session = unit.sessions.find(({ method }) => method === "keystroke@2")!;
  const method = archive.methods.get(session.method) as KeystrokeMethod;
  const { strokes } = readStrokes(archive, session);
  const rig = archive.rigs.get(session.rig) ?? null;
  const context = reductionContext(unit, session, method, rig);
  const complianceMmPerCn = context.rig.calibration?.terms["compliance"]?.value.value ?? 0;
  return { strokes, complianceMmPerCn, reduction: reduceKeystroke(strokes, context) };
}

function representative({ reduction }: Reduced): Chart {
  return forceCurve(reduction.keys, { key: reduction.representativeKey, others: false });
}

/** The readings themselves around touch or bottom-out, with the place the reduction found. */
function nearPoint(reduced: Reduced, which: "touch" | "bottom"): Chart {
  const { reduction } = reduced;
  const key = reduction.keys.find((each) => each.key === reduction.representativeKey)!;
  const { fromTouchMm, press } = touchedPress(key, reduced);
  const total = key.cycles.find(({ cycle }) => cycle === key.medianCycle)!.characteristics.totalTravel;
  const at = which === "touch" || total.absent ? 0 : total.value;
  const points = [...fromTouchMm]
    .map((mm, row) => ({ mm, cN: press.forceCn[row]! }))
    .filter(({ mm }) => Math.abs(mm - at) <= 0.12);
  const name = which === "touch" ? "touch" : "bottom-out";
  return chart(
    {
      marks: [
        Plot.ruleX([at], { stroke: colours.second, strokeWidth: strokes.curve, strokeDasharray: "6 3" }),
        Plot.line(points, { x: "mm", y: "cN", stroke: colours.faint, strokeWidth: strokes.thin }),
        Plot.dot(points, { x: "mm", y: "cN", fill: colours.first, r: 3 }),
      ],
      x: { label: "Displacement from touch", symbol: "mm", grid: true },
      y: { label: "Force", symbol: "cN" },
      height: 220,
      note: `Dots: readings. Dashed: ${name} as found, between the readings.`,
    },
    {
      finding: `${name} lies at ${at.toFixed(3)} mm, between two readings`,
      data: {
        columns: [
          { name: "displacement", label: "Displacement from touch", symbol: "mm" },
          { name: "force", label: "Force", symbol: "cN" },
        ],
        rows: points.map(({ mm, cN }) => [mm, cN]),
      },
    },
  );
}

/** Readings counted from touch: the drawn curve has touch at 0, so the largest displacements differ by just that. */
function touchedPress(
  key: KeyReduction,
  { strokes, complianceMmPerCn }: Reduced,
): { fromTouchMm: Float64Array; press: Stroke } {
  const press = strokes.find((s) => s.key === key.key && s.cycle === key.medianCycle && s.stroke === "press")!;
  const curve = key.cycles.find(({ cycle }) => cycle === key.medianCycle)!.curve.press;
  const corrected = press.displacementMm.map((mm, row) => mm - complianceMmPerCn * press.forceCn[row]!);
  const touchMm = Math.max(...corrected) - Math.max(...curve.map(([mm]) => mm));
  return { press, fromTouchMm: corrected.map((mm) => mm - touchMm) };
}

/** Draws a chart as a file of its own: the theme's variables become the light palette's values. */
function standAlone(name: string, drawn: Chart, title: string): MethodDrawing {
  const { svg } = drawChart(drawn, name, { title });
  const values = Object.entries(lightPalette).flatMap(([role, value]): (readonly [string, string])[] =>
    typeof value === "string"
      ? [[role, value]]
      : value.map((tint: string, step: number) => [`tint-${step + 1}`, tint] as const),
  );
  const coloured = values.reduce((text, [role, value]) => text.replaceAll(`var(--figure-${role})`, value), svg);
  const framed = coloured.replace(/(<svg [^>]*>)/, `$1<rect width="100%" height="100%" fill="${lightPalette.paper}"/>`);
  return { name: `${name}.svg`, svg: `${framed.replace("<svg ", '<svg font-family="sans-serif" ')}\n` };
}
