/** Step of the differences, as a fraction of each standard uncertainty. */
const fraction = 0.125;

/**
 * Standard uncertainty with the next terms of the Taylor series, for independent inputs that are symmetric about their
 * estimates (JCGM 100:2008, 5.1.2, note): the sum over i, j of (f_ij^2 / 2 + f_i f_ijj) u_i^2 u_j^2 is added to the
 * first-order variance. Derivatives are central differences over one standard uncertainty. For checking whether a
 * nonlinear model may be propagated at first order.
 *
 * @param values estimates of the inputs
 * @param uncertainties standard uncertainties of the inputs, at least 0
 * @returns first-order and full standard uncertainty, in the formula's symbol
 * @throws RangeError where the lengths differ or the added terms make the variance negative
 */
export function secondOrderUncertainty(
  values: readonly number[],
  uncertainties: readonly number[],
  formula: (values: readonly number[]) => number,
): { readonly first: number; readonly full: number } {
  if (values.length !== uncertainties.length) {
    throw new RangeError(`${values.length} values but ${uncertainties.length} uncertainties`);
  }
  const at = (moves: readonly (readonly [index: number, steps: number])[]): number => {
    const moved = [...values];
    for (const [index, steps] of moves) moved[index] = moved[index]! + steps * fraction * uncertainties[index]!;
    return formula(moved);
  };
  const centre = at([]);
  let first = 0;
  let second = 0;
  values.forEach((_, i) => {
    // Scaled derivatives: each carries its factors u_i, so the sums need no further multiplication.
    const slope = (at([[i, 1]]) - at([[i, -1]])) / (2 * fraction);
    const third = (at([[i, 2]]) - 2 * at([[i, 1]]) + 2 * at([[i, -1]]) - at([[i, -2]])) / (2 * fraction ** 3);
    const slopeAtCentre = slope - (fraction ** 2 * third) / 6;
    first += slopeAtCentre ** 2;
    values.forEach((_, j) => {
      if (i === j) {
        const curvature = (at([[i, 1]]) - 2 * centre + at([[i, -1]])) / fraction ** 2;
        second += curvature ** 2 / 2 + slopeAtCentre * third;
        return;
      }
      const corner = (a: number, b: number): number =>
        at([
          [i, a],
          [j, b],
        ]);
      const mixed = (corner(1, 1) - corner(1, -1) - corner(-1, 1) + corner(-1, -1)) / (4 * fraction ** 2);
      const cross =
        (corner(1, 1) - 2 * at([[i, 1]]) + corner(1, -1) - corner(-1, 1) + 2 * at([[i, -1]]) - corner(-1, -1)) /
        (2 * fraction ** 3);
      second += mixed ** 2 / 2 + slopeAtCentre * cross;
    });
  });
  const variance = first + second;
  if (!(variance >= 0)) throw new RangeError("the second-order terms make the variance negative; use Monte Carlo");
  return { first: Math.sqrt(first), full: Math.sqrt(variance) };
}
