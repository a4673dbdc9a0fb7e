import { fQuantile } from "../statistics/numeric/distributions.js";
import { varianceOf } from "../statistics/numeric/sums.js";

/** Scatter of the cycles of one key. */
export interface Repeatability {
  /** Variance of one cycle, in the square of the characteristic's symbol. */
  readonly variance: number;
  readonly dof: number;
  /** Number of keys whose cycles it rests on. */
  readonly keys: number;
}

/** A key whose variance would be that large by chance with this probability, among all keys, stands alone. */
const usualRejection = 0.01;

/**
 * Repeatability variance of one characteristic, for each key of a session.
 *
 * The keys of a unit are cycled by one tester in one session, so their variances are pooled, weighted by degrees of
 * freedom (ISO 5725-2:1994, 7.4.5.1); three cycles alone would give two degrees of freedom. A key whose variance exceeds
 * the pooled variance of the others by an F test at 1 % over the number of keys (the one-sided outlier test of Cochran in
 * its F form) is taken out and stands for itself; that is repeated as long as three keys are left.
 *
 * @param values of the used cycles, one list a key; lists of fewer than two do not contribute
 * @param options rejection: level of that test, default 0.01; 0 keeps all keys together
 * @returns one entry a key, in the order given; null for all where no key has two cycles
 */
export function repeatability(
  values: readonly (readonly number[])[],
  options: { readonly rejection?: number } = {},
): readonly (Repeatability | null)[] {
  const rejection = options.rejection ?? usualRejection;
  const own = values.map((list) => ({ dof: list.length - 1, variance: list.length > 1 ? varianceOf(list) : 0 }));
  const isPooled = own.map((each) => each.dof > 0);
  const pool = (): { variance: number; dof: number; keys: number } => {
    const members = own.filter((_, i) => isPooled[i]);
    const dof = members.reduce((total, each) => total + each.dof, 0);
    const squares = members.reduce((total, each) => total + each.dof * each.variance, 0);
    return { variance: dof > 0 ? squares / dof : 0, dof, keys: members.length };
  };
  for (let pooled = pool(); rejection > 0 && pooled.keys > 3; pooled = pool()) {
    let worst = -1;
    own.forEach((each, i) => {
      if (isPooled[i] && (worst < 0 || each.variance > own[worst]!.variance)) worst = i;
    });
    const odd = own[worst]!;
    const othersDof = pooled.dof - odd.dof;
    const others = (pooled.dof * pooled.variance - odd.dof * odd.variance) / othersDof;
    const limit = fQuantile(1 - rejection / pooled.keys, odd.dof, othersDof);
    if (!(odd.variance > limit * others)) break;
    isPooled[worst] = false;
  }
  const pooled = pool();
  if (pooled.dof === 0) return values.map(() => null);
  return own.map((each, i) =>
    isPooled[i] || each.dof <= 0 ? pooled : { variance: each.variance, dof: each.dof, keys: 1 },
  );
}
