import { safeLabel } from "../drawing/safe-text.js";
import type { Point } from "../drawing/simplify.js";
import { labelOf, type LabelOptions } from "./entries.js";
import { counted, joinWords, sayNumber, sayStated } from "./words.js";

/** A labelled curve of a figure. */
export interface Curve {
  readonly label: string;
  readonly points: readonly Point[];
}

/**
 * The curves of a figure in the given order. A curve without points stays in the list.
 * @throws RangeError where a coordinate is not a number
 */
export function curvesOf<T>(
  items: readonly T[],
  points: (item: T, index: number) => readonly Point[],
  options: LabelOptions<T>,
  where: string,
): readonly Curve[] {
  return items.map((item, index) => {
    const curve = { label: safeLabel(labelOf(item, index, options, where)), points: points(item, index) };
    const bad = curve.points.findIndex(([x, y]) => !Number.isFinite(x) || !Number.isFinite(y));
    if (bad >= 0) throw new RangeError(`point ${bad + 1} of ${curve.label} in the ${where} is not a pair of numbers`);
    return curve;
  });
}

/** Height of a curve at x by linear interpolation on its first crossing; undefined where the curve does not reach x. */
export function heightAt(points: readonly Point[], x: number): number | undefined {
  for (let index = 1; index < points.length; index++) {
    const [ax, ay] = points[index - 1]!;
    const [bx, by] = points[index]!;
    if ((ax - x) * (bx - x) <= 0) return ax === bx ? ay : ay + ((by - ay) * (x - ax)) / (bx - ax);
  }
  return undefined;
}

/** The middle of the stretch of x that all curves cover, to two significant digits; undefined where there is none. */
export function commonMiddle(curves: readonly Curve[]): number | undefined {
  const low = Math.max(...curves.map(({ points }) => Math.min(...points.map(([x]) => x))));
  const high = Math.min(...curves.map(({ points }) => Math.max(...points.map(([x]) => x))));
  return low < high ? Number(((low + high) / 2).toPrecision(2)) : undefined;
}

export interface RangeAt {
  readonly x: number;
  readonly xSymbol: string;
  readonly ySymbol: string;
  readonly noun: string;
}

/**
 * Between which heights the curves lie at x, as a clause: "at 2 mm the 8 curves lie between 43.1 cN (KeyI) and 50.2 cN
 * (KeyP)". Curves that do not reach x are named. Heights are read from curves and have no uncertainty here.
 */
export function sayRangeAt(curves: readonly Curve[], { x, xSymbol, ySymbol, noun }: RangeAt): string {
  const read = curves.flatMap(({ label, points }) => {
    const height = heightAt(points, x);
    return height === undefined ? [] : [{ label, height }];
  });
  const short = curves.filter(({ points }) => heightAt(points, x) === undefined).map(({ label }) => label);
  const missing = short.length === 0 ? "" : `; ${joinWords(short)} ${short.length === 1 ? "does" : "do"} not reach it`;
  const where = `at ${sayStated(x, xSymbol)}`;
  const say = (height: number): string => sayNumber(height, ySymbol, 1);
  const [first] = read;
  if (first === undefined) return `${where} there is no curve to read`;
  if (read.length === 1) return `${where} ${first.label} lies at ${say(first.height)}${missing}`;
  const lowest = read.reduce((a, b) => (b.height < a.height ? b : a));
  const highest = read.reduce((a, b) => (b.height > a.height ? b : a));
  if (say(lowest.height) === say(highest.height)) {
    return `${where} the ${counted(read.length, noun)} lie at ${say(lowest.height)}${missing}`;
  }
  return (
    `${where} the ${counted(read.length, noun)} lie between ${say(lowest.height)} (${lowest.label}) and ` +
    `${say(highest.height)} (${highest.label})${missing}`
  );
}
