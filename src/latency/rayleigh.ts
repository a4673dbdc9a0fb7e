import type { PhaseTest } from "./model.js";

/**
 * Rayleigh test of uniformity on the circle against one preferred direction: p of the resultant length R = n r, by
 * p = exp(sqrt(1 + 4n + 4(n^2 - R^2)) - (1 + 2n)).
 *
 * @param phases in cycles (1 = once around); any real numbers, taken modulo 1; order and ties do not matter
 * @returns n, mean resultant length r (0 to 1), mean direction in cycles (0 to 1; 0 where r is 0), p (0 to 1)
 * @throws RangeError below five phases, where the approximation does not hold, or where one is not finite
 * @source J. H. Zar, Biostatistical Analysis, 5th ed., equation 27.4; K. V. Mardia and P. E. Jupp, Directional
 * Statistics, section 6.3.1
 */
export function rayleighTest(phases: readonly number[]): PhaseTest {
  const n = phases.length;
  if (!(n >= 5)) throw new RangeError(`the Rayleigh test needs at least 5 phases, got ${n}`);
  const odd = phases.find((phase) => !Number.isFinite(phase));
  if (odd !== undefined) throw new RangeError(`a phase is ${odd}; it must be finite`);
  let cosines = 0;
  let sines = 0;
  for (const phase of phases) {
    const angle = 2 * Math.PI * (phase - Math.floor(phase));
    cosines += Math.cos(angle);
    sines += Math.sin(angle);
  }
  const resultant = Math.min(n, Math.hypot(cosines, sines));
  const direction = Math.atan2(sines, cosines) / (2 * Math.PI);
  const exponent = Math.sqrt(1 + 4 * n + 4 * (n * n - resultant * resultant)) - (1 + 2 * n);
  return {
    n,
    resultantLength: resultant / n,
    directionCycles: direction < 0 ? direction + 1 : direction,
    pValue: Math.min(1, Math.exp(exponent)),
  };
}
