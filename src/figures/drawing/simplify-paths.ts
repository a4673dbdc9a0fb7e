import { simplifyPolyline, type Point } from "./simplify.js";

/** Paths are thinned by at most this distance, px: a fifth of a pixel, and a tenth of the width of a curve's line. */
export const simplifyTolerancePx = 0.2;

/** Below this many points a path stays as drawn. */
const longPath = 40;

const polyline = /^(?:M-?[\d.e-]+,-?[\d.e-]+(?:L-?[\d.e-]+,-?[\d.e-]+)*Z?)+$/;

/**
 * Thins every long path of straight lines below an element to what the pixel grid can show; curves and short paths stay.
 * The table and the CSV file keep the points that the chart was given.
 */
export function simplifyPaths(root: Element): void {
  for (const path of root.querySelectorAll("path")) {
    const description = path.getAttribute("d");
    if (description !== null) path.setAttribute("d", simplifyPath(description));
  }
}

/** The path with its long polylines thinned; a path with anything but M, L and Z comes back as it is. */
export function simplifyPath(description: string): string {
  if (!polyline.test(description)) return description;
  const parts = description.split(/(?=M)/).map((part) => {
    const closed = part.endsWith("Z");
    const points = (closed ? part.slice(0, -1) : part)
      .slice(1)
      .split("L")
      .map((pair): Point => {
        const [x, y] = pair.split(",");
        return [Number(x), Number(y)];
      });
    if (points.length < longPath) return part;
    const kept = simplifyPolyline(points, simplifyTolerancePx).map(([x, y]) => `${x},${y}`);
    return `M${kept.join("L")}${closed ? "Z" : ""}`;
  });
  return parts.join("");
}
