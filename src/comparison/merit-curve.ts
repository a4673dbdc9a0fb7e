/** Points of a merit curve: [value, merit], rising in value. */
export type CurvePoints = readonly (readonly [number, number])[];

/**
 * Checks a merit curve once and gives its function: piecewise linear, flat outside its points.
 * @throws RangeError on no points, and on values that do not rise; the function throws on NaN
 */
export function meritFunction(points: CurvePoints): (value: number) => number {
  const first = points[0];
  if (first === undefined) throw new RangeError("a merit curve needs at least one point");
  points.slice(1).forEach(([x], i) => {
    if (!(x > points[i]![0])) throw new RangeError(`a merit curve's points must rise: ${x} follows ${points[i]![0]}`);
  });
  return (value) => {
    if (Number.isNaN(value)) throw new RangeError("a merit needs a value, got NaN");
    if (value <= first[0]) return first[1];
    for (let right = 1; right < points.length; right++) {
      const [x1, y1] = points[right]!;
      if (value > x1) continue;
      const [x0, y0] = points[right - 1]!;
      return y0 + ((value - x0) / (x1 - x0)) * (y1 - y0);
    }
    return points.at(-1)![1];
  };
}

/** Merit of one value; see `meritFunction`. */
export function meritCurve(points: CurvePoints, value: number): number {
  return meritFunction(points)(value);
}

/**
 * The name of the grade that a merit earns: the first of the grades, best first, whose lower end it reaches.
 * @throws RangeError where there are no grades
 */
export function gradeOf(grades: readonly { readonly name: string; readonly from: number }[], merit: number): string {
  const found = grades.find(({ from }) => merit >= from) ?? grades.at(-1);
  if (found === undefined) throw new RangeError("a grade needs a scoring method with grades");
  return found.name;
}
