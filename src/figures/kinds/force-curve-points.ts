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

/** Names of the two strokes, beside them at four fifths of the travel. */
export function strokeLabels(
  press: readonly (readonly [number, number])[],
  release: readonly (readonly [number, number])[],
  top: number,
): readonly PointLabel[] {
  const end = Math.max(...press.map(([mm]) => mm));
  const nearest = (curve: readonly (readonly [number, number])[], mm: number): readonly [number, number] | undefined =>
    [...curve].filter(([, cN]) => cN <= top).sort((a, b) => Math.abs(a[0] - mm) - Math.abs(b[0] - mm))[0];
  const onPress = nearest(press, end * 0.78);
  const onRelease = nearest(release, end * 0.78);
  return [
    ...(onPress === undefined
      ? []
      : [{ x: onPress[0], y: onPress[1], text: "press", prefer: ["n", "nw", "ne"] as const }]),
    ...(onRelease === undefined
      ? []
      : [{ x: onRelease[0], y: onRelease[1], text: "release", prefer: ["s", "se", "sw"] as const }]),
  ];
}
