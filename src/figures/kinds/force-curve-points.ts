import type * as Plot from "@observablehq/plot";
import type { CycleReduction } from "../../keystroke/model.js";
import { isQuantity, type Measured, type Quantity } from "../../metrology/quantity.js";
import type { PointLabel } from "../kit/point-labels.js";
import { sayValue } from "../kit/words.js";

/** A characteristic point of a force-displacement curve and how it is drawn. */
export interface MarkedPoint {
  readonly name: string;
  readonly symbol: Plot.SymbolType;
  readonly hollow: boolean;
  readonly position: Measured<"mm">;
  readonly force: Measured<"cN">;
  readonly prefer: PointLabel["prefer"];
}

/** A marked point whose position and force are both there. */
export interface LocatedPoint extends MarkedPoint {
  readonly position: Quantity<"mm">;
  readonly force: Quantity<"cN">;
}

/** The points of a cycle that exist, in the order of their importance on the page. */
export function pointsOf(cycle: CycleReduction): readonly LocatedPoint[] {
  const c = cycle.characteristics;
  const candidates: readonly MarkedPoint[] = [
    {
      name: "actuation",
      symbol: "circle",
      hollow: false,
      position: c.preTravel,
      force: c.actuationForce,
      prefer: ["n", "ne", "nw"],
    },
    {
      name: "reset",
      symbol: "circle",
      hollow: true,
      position: c.resetPoint,
      force: c.resetForce,
      prefer: ["se", "s", "sw"],
    },
    {
      name: "tactile peak",
      symbol: "triangle",
      hollow: false,
      position: c.peakPosition,
      force: c.peakForce,
      prefer: ["n", "nw"],
    },
    {
      name: "bottom-out",
      symbol: "square",
      hollow: false,
      position: c.totalTravel,
      force: c.bottomOutForce,
      prefer: ["w", "nw", "sw"],
    },
    {
      name: "valley",
      symbol: "triangle",
      hollow: true,
      position: c.valleyPosition,
      force: c.valleyForce,
      prefer: ["s", "sw"],
    },
  ];
  return candidates.filter((point): point is LocatedPoint => isQuantity(point.position) && isQuantity(point.force));
}

/** Name, position and force of a point, beside it. */
export function labelOfPoint(point: LocatedPoint): PointLabel {
  return {
    x: point.position.value,
    y: point.force.value,
    text: point.name,
    detail: `${sayValue(point.position)}, ${sayValue(point.force)}`,
    ...(point.prefer === undefined ? {} : { prefer: point.prefer }),
  };
}

/** Shares of the travel at which the strokes may be named, best first. */
const nameAt = [0.78, 0.6, 0.45, 0.3, 0.9, 0.15] as const;

type Curve = readonly (readonly [number, number])[];

/** Names of the two strokes beside them, where they lie clearly apart and the words have room. */
export function strokeLabels(press: Curve, release: Curve, top: number): readonly PointLabel[] {
  const visible = release.filter(([, cN]) => cN <= top);
  const end = Math.max(...press.map(([mm]) => mm));
  const places = nameAt.flatMap((share) => {
    const [onPress, onRelease] = [nearest(press, end * share), nearest(visible, end * share)];
    return onPress === undefined ? [] : [{ onPress, onRelease, gap: onPress[1] - (onRelease?.[1] ?? 0) }];
  });
  const widest = Math.max(...places.map(({ gap }) => gap));
  const apart = places.filter(({ gap }) => gap >= 0.6 * widest);
  const name = (text: string, points: Curve, prefer: PointLabel["prefer"]): readonly PointLabel[] => {
    const [first, ...elsewhere] = points;
    return first === undefined
      ? []
      : [{ x: first[0], y: first[1], text, elsewhere, ...(prefer === undefined ? {} : { prefer }) }];
  };
  return [
    ...name(
      "press",
      apart.map(({ onPress }) => onPress),
      ["n", "nw", "ne"],
    ),
    ...name(
      "release",
      apart.flatMap(({ onRelease }) => (onRelease === undefined ? [] : [onRelease])),
      ["s", "se", "sw"],
    ),
  ];
}

function nearest(curve: Curve, mm: number): readonly [number, number] | undefined {
  return [...curve].sort((a, b) => Math.abs(a[0] - mm) - Math.abs(b[0] - mm))[0];
}
