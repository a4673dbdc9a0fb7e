/** One question of a report that may end in a claim. */
export interface AskedQuestion {
  /** p-value of nothing being there, from 0 to 1. */
  readonly p: number;
  /** Its share of the level, in any measure that all questions of the report use; above 0. */
  readonly share: number;
}

/**
 * P-values of all questions of a report, adjusted so that claiming those at most alpha makes a false claim in at most alpha of
 * reports, under any dependence: Holm's step-down method with weights. The smallest p/share is multiplied by the sum of all
 * shares, the next by the sum of those that are left, and so on, made monotone, at most 1. Equal shares give Holm's own method.
 *
 * Shares must be set before the data are seen. Those of questions that could not be asked go to the others in proportion.
 * @param asked the questions in any order, which the result keeps; none give none
 * @throws RangeError where a p-value is not from 0 to 1 or a share is not above 0, NaN included
 * Source: Holm, Scandinavian Journal of Statistics 6 (1979) 65, section 4 (tests of unequal importance).
 */
export function adjustClaims<Question extends AskedQuestion>(
  asked: readonly Question[],
): readonly (Question & { readonly adjusted: number })[] {
  asked.forEach(({ p, share }, index) => {
    if (!(p >= 0 && p <= 1)) throw new RangeError(`p-value ${index + 1} is ${p}; it must be from 0 to 1`);
    if (!(share > 0 && share < Infinity))
      throw new RangeError(`the share of question ${index + 1} is ${share}; it must be above 0`);
  });
  const order = asked.map((_, index) => index).sort((a, b) => ratio(asked[a]!) - ratio(asked[b]!) || a - b);
  const adjusted = new Map<number, number>();
  let highest = 0;
  order.forEach((place, done) => {
    const left = order.slice(done).reduce((total, index) => total + asked[index]!.share, 0);
    highest = Math.max(highest, Math.min(1, (left / asked[place]!.share) * asked[place]!.p));
    adjusted.set(place, highest);
  });
  return asked.map((question, index) => ({ ...question, adjusted: adjusted.get(index)! }));
}

function ratio({ p, share }: AskedQuestion): number {
  return p / share;
}
