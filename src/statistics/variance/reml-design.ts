import type { Rows } from "../numeric/dense.js";
import { Undetermined } from "../numeric/guards.js";
import type { Levels } from "../numeric/layout.js";
import { distinct, levelsOf } from "../numeric/layout.js";
import { sumOf } from "../numeric/sums.js";

/** A random factor as the design can tell it: confounded factors under a joint name. */
export interface RandomTerm {
  readonly name: string;
  /** Number of levels. */
  readonly levels: number;
  /** First column in Z. */
  readonly start: number;
}

/** Cross products of the mixed model y = Xβ + Σ Z_k u_k + e, taken once; every likelihood is computed from them. */
export interface RemlDesign {
  readonly terms: readonly RandomTerm[];
  /** Factors that have one value a level and so cannot be told from the residual. */
  readonly inResidual: readonly string[];
  readonly n: number;
  /** Number of fixed effects. */
  readonly p: number;
  readonly zz: Rows;
  readonly zx: Rows;
  readonly zy: readonly number[];
  readonly xx: Rows;
  readonly xy: readonly number[];
  readonly yy: number;
  /** Origin and scale taken off the values before. */
  readonly origin: number;
  readonly scale: number;
}

/** Lays out values, random factors and fixed factors; merges what the design cannot separate. */
export function remlDesign(values: readonly number[], random: Levels, fixed: Levels): RemlDesign {
  const n = values.length;
  const partitions: { names: string[]; index: readonly number[]; size: number }[] = [];
  const inResidual: string[] = [];
  for (const name of Object.keys(random)) {
    const levels = levelsOf(random, name, n, "reml");
    const order = new Map(distinct(levels).map((level, i) => [level, i]));
    const index = levels.map((level) => order.get(level)!);
    if (order.size === n) {
      inResidual.push(name);
      continue;
    }
    const same = partitions.find((known) => known.index.every((at, i) => at === index[i]));
    if (same) same.names.push(name);
    else partitions.push({ names: [name], index, size: order.size });
  }
  const single = partitions.find((part) => part.size < 2);
  if (single) throw new Undetermined(`reml needs at least 2 levels of ${single.names.join(" + ")}, got 1`);
  let start = 0;
  const terms = partitions.map((part): RandomTerm => {
    const term = { name: part.names.join(" + "), levels: part.size, start };
    start += part.size;
    return term;
  });
  const columns = fixedColumns(fixed, n);
  const p = columns.length;
  if (n <= p) throw new Undetermined(`reml needs more than ${p} values for ${p} fixed effects, got ${n}`);
  const origin = values[0]!;
  const shifted = values.map((value) => value - origin);
  const spread = Math.sqrt(sumOf(shifted.map((v) => v * v)) / n);
  const scale = spread > 0 ? spread : 1;
  const y = shifted.map((v) => v / scale);
  const q = start;
  const zeros = (width: number): number[][] => Array.from({ length: q }, () => new Array<number>(width).fill(0));
  const zz = zeros(q);
  const zx = zeros(p);
  const zy = new Array<number>(q).fill(0);
  for (let i = 0; i < n; i++) {
    const at = partitions.map((part, k) => terms[k]!.start + part.index[i]!);
    for (const a of at) {
      for (const b of at) zz[a]![b]! += 1;
      for (let j = 0; j < p; j++) zx[a]![j]! += columns[j]![i]!;
      zy[a]! += y[i]!;
    }
  }
  const product = (a: readonly number[], b: readonly number[]): number => sumOf(a.map((v, i) => v * b[i]!));
  return {
    terms,
    inResidual,
    n,
    p,
    zz,
    zx,
    zy,
    xx: columns.map((a) => columns.map((b) => product(a, b))),
    xy: columns.map((a) => product(a, y)),
    yy: product(y, y),
    origin,
    scale,
  };
}

/** The constant, and for each fixed factor a column for every level but the first. */
function fixedColumns(fixed: Levels, n: number): readonly (readonly number[])[] {
  const columns: number[][] = [new Array<number>(n).fill(1)];
  for (const name of Object.keys(fixed)) {
    const levels = levelsOf(fixed, name, n, "reml");
    for (const level of distinct(levels).slice(1)) columns.push(levels.map((at) => (at === level ? 1 : 0)));
  }
  return columns;
}
