import * as Plot from "@observablehq/plot";
import { colours, strokes } from "../theme.js";
import type { Standing } from "./limits.js";

/** A value in a chart of rows or points, with how it stands to its limits. */
export interface StandingPoint {
  readonly x: number;
  readonly y: number;
  readonly standing: Standing;
}

/** Colour of the lines that belong to a point. */
export function standingColour(standing: Standing): string {
  return standing === "outside" ? colours.second : standing === "not_judged" ? colours.ink : colours.first;
}

/** Points by standing, told apart by shape and filling before colour: inside a disc, undecided a ring, outside a diamond. */
export function standingSymbols(points: readonly StandingPoint[]): Plot.Markish[] {
  const of = (standing: Standing): readonly StandingPoint[] => points.filter((point) => point.standing === standing);
  return (["not_judged", "inside", "undecided", "outside"] as const).map((standing) => {
    const colour = standingColour(standing);
    return Plot.dot([...of(standing)], {
      x: "x",
      y: "y",
      r: standing === "outside" ? 5 : 4,
      symbol: standing === "outside" ? "diamond" : "circle",
      fill: standing === "undecided" ? colours.paper : colour,
      stroke: colour,
      strokeWidth: strokes.curve,
    });
  });
}

/** The word that stands beside a point; a point inside needs none. */
export function standingWord(standing: Standing): string {
  return standing === "outside" || standing === "undecided" ? standing : "";
}
