import type { Rows } from "../numeric/dense.js";
import { backSolve, choleskyOf, forwardSolve } from "../numeric/dense.js";
import { Undetermined } from "../numeric/guards.js";
import type { RemlDesign } from "./reml-design.js";
import type { RemlPoint } from "./reml-likelihood.js";
import { remlPoint } from "./reml-likelihood.js";

export interface RemlFit {
  readonly variances: readonly number[];
  readonly point: RemlPoint;
}

export interface FitOptions {
  /** Variances that are kept at a value (for a profile), by position. */
  readonly held?: ReadonlyMap<number, number>;
  /** Where to start; default equal shares. */
  readonly start?: readonly number[];
  /** Largest relative change of a variance at which the search ends; default 1e-11. */
  readonly tolerance?: number;
}

/**
 * Maximises the restricted likelihood by Newton steps (by Fisher scoring where the likelihood curves the other
 * way) with halving; a variance whose score is negative at 0 stays there.
 * @throws Undetermined where the likelihood has no maximum that the design determines
 */
export function fitReml(design: RemlDesign, options: FitOptions = {}): RemlFit {
  const { held = new Map<number, number>(), start, tolerance = 1e-11 } = options;
  const size = design.terms.length + 1;
  const least = 1e-12;
  let variances = Array.from({ length: size }, (_, k) => held.get(k) ?? start?.[k] ?? 1 / size).map((v, k) =>
    k === size - 1 ? Math.max(v, least) : Math.max(v, 0),
  );
  let point = remlPoint(design, variances);
  let settled = false;
  for (let step = 0; step < 300 && !settled; step++) {
    const free = variances.flatMap((v, k) => {
      if (held.has(k)) return [];
      return k < size - 1 && v <= 0 && point.score[k]! <= 0 ? [] : [k];
    });
    if (free.length === 0) {
      settled = true;
      break;
    }
    const direction = scoringStep(point, free);
    const along = (at: RemlPoint): number => free.reduce((total, k, i) => total + at.score[k]! * direction[i]!, 0);
    let share = 1;
    let next = variances;
    let nextPoint = point;
    let improved = false;
    for (let halving = 0; halving < 60; halving++) {
      next = variances.map((v, k) => {
        const at = free.indexOf(k);
        if (at < 0) return v;
        const to = v + share * direction[at]!;
        return k === size - 1 ? Math.max(to, v / 10, least) : Math.max(to, 0);
      });
      nextPoint = remlPoint(design, next);
      // Near the maximum the deviance is flat to rounding, so the slope along the step must fall.
      const room = 1e-10 * Math.max(1, Math.abs(point.deviance));
      const falls = Math.abs(along(nextPoint)) < 0.9 * Math.abs(along(point));
      if (nextPoint.deviance < point.deviance - room || (nextPoint.deviance < point.deviance + room && falls)) {
        improved = true;
        break;
      }
      share /= 2;
    }
    if (!improved) {
      settled = true;
      break;
    }
    const change = Math.max(...next.map((v, k) => Math.abs(v - variances[k]!) / Math.max(v, 1e-6)));
    variances = next;
    point = nextPoint;
    settled = change < tolerance;
  }
  if (!settled) throw new Undetermined("the search of reml does not settle; the data do not determine the components");
  return { variances, point };
}

function scoringStep(point: RemlPoint, free: readonly number[]): readonly number[] {
  const scale = free.map((k) => Math.sqrt(Math.max(point.information[k]![k]!, 1e-300)));
  const scaled = (matrix: Rows): Rows =>
    free.map((k, i) => free.map((l, j) => matrix[k]![l]! / (scale[i]! * scale[j]!)));
  const factor = choleskyOf(scaled(point.observed)) ?? choleskyOf(scaled(point.information));
  if (factor === undefined) {
    throw new Undetermined("the design cannot separate the components: the information about them is singular");
  }
  const right = forwardSolve(
    factor,
    free.map((k, i) => [point.score[k]! / scale[i]!]),
  );
  const step = backSolve(
    factor,
    right.map((row) => row[0]!),
  );
  return step.map((value, i) => value / scale[i]!);
}
