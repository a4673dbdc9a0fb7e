import { checkProbability, checkWhole } from "../numeric/guards.js";
import { normalCdf, normalDensity, normalQuantile } from "../numeric/distributions.js";
import { chiSquaredUpper } from "../numeric/gamma.js";
import { integral, overSdRatio } from "../numeric/quadrature.js";
import { rootBetween } from "../numeric/search.js";

export interface ToleranceOptions {
  /** Share of the population that is to be covered; default 0.95. */
  readonly coverage?: number;
  /** Confidence that it is; default 0.95. */
  readonly confidence?: number;
}

/**
 * Exact factor k of a two-sided tolerance interval m ± k s of a normal population: the k for which
 * ∫ P(χ²_(n-1) > (n - 1) r(z)²/k²) dΦ(z√n) equals the confidence, with Φ(z + r) - Φ(z - r) = coverage.
 * @param n sample size of at least 2
 * @param options coverage: default 0.95; confidence: default 0.95
 * @throws RangeError where n is not whole or below 2, and on shares outside 0 to 1
 * Source: ISO 16269-6:2014, Annex B (method of Odeh and Owen 1980).
 */
export function toleranceFactorKernel(n: number, options: ToleranceOptions = {}): number {
  const { coverage = 0.95, confidence = 0.95 } = options;
  checkWhole(n, 2, "the sample size");
  checkProbability(coverage, "coverage");
  checkProbability(confidence, "confidence");
  const widest = 8 / Math.sqrt(n);
  const halfWidths = new Map<number, number>();
  const halfWidthAt = (z: number): number => {
    const known = halfWidths.get(z);
    if (known !== undefined) return known;
    const r = rootBetween((h) => normalCdf(z + h) - normalCdf(z - h) - coverage, 0, Math.abs(z) + 40, 1e-13);
    halfWidths.set(z, r);
    return r;
  };
  const reached = (k: number): number =>
    2 *
    integral(
      (z) =>
        chiSquaredUpper(((n - 1) * halfWidthAt(z) ** 2) / (k * k), n - 1) *
        normalDensity(z * Math.sqrt(n)) *
        Math.sqrt(n),
      0,
      widest,
      4,
    );
  return rootBetween(
    (k) => reached(k) - confidence,
    1e-3,
    upperFactor((k) => reached(k) < confidence),
    1e-12,
  );
}

/**
 * Exact factor k of a one-sided tolerance limit m + k s of a normal population, from the non-central t distribution:
 * P(T_(n-1)(z_p √n) ≤ k √n) = confidence.
 * @param n sample size of at least 2
 * @param options coverage: default 0.95; confidence: default 0.95
 * @throws RangeError where n is not whole or below 2, and on shares outside 0 to 1
 * Source: ISO 16269-6:2014, Annex B; Owen 1963.
 */
export function oneSidedToleranceFactorKernel(n: number, options: ToleranceOptions = {}): number {
  const { coverage = 0.95, confidence = 0.95 } = options;
  checkWhole(n, 2, "the sample size");
  checkProbability(coverage, "coverage");
  checkProbability(confidence, "confidence");
  const shift = normalQuantile(coverage) * Math.sqrt(n);
  const reached = (k: number): number => noncentralTCdf(k * Math.sqrt(n), n - 1, shift);
  return rootBetween(
    (k) => reached(k) - confidence,
    -50,
    upperFactor((k) => reached(k) < confidence),
    1e-12,
  );
}

function upperFactor(tooSmall: (k: number) => boolean): number {
  let high = 4;
  while (tooSmall(high)) high *= 2;
  return high;
}

/**
 * P(T ≤ t) of the non-central t distribution by integration over the sample sd: ∫ Φ(t s - δ) f(s) ds.
 * @param t any number
 * @param dof degrees of freedom above 0
 * @param shift non-centrality δ
 * Source: Johnson, Kotz and Balakrishnan, Continuous Univariate Distributions 2 (1995), 31.1.
 */
export function noncentralTCdf(t: number, dof: number, shift: number): number {
  return overSdRatio((s) => normalCdf(t * s - shift), dof, 24);
}

/**
 * Smallest sample size for which the smallest and largest value hold the stated share of any continuous population:
 * 1 - n p^(n-1) + (n - 1) p^n ≥ confidence.
 * @param options coverage: default 0.95; confidence: default 0.95 (93 values)
 * @throws RangeError on shares outside 0 to 1
 * Source: Wilks, Annals of Mathematical Statistics 12 (1941) 91; ISO 16269-6:2014, 7.
 */
export function distributionFreeSizeKernel(options: ToleranceOptions = {}): number {
  const { coverage = 0.95, confidence = 0.95 } = options;
  checkProbability(coverage, "coverage");
  checkProbability(confidence, "confidence");
  let n = 2;
  while (heldConfidence(n, coverage) < confidence) n++;
  return n;
}

/** Confidence that the range of n values holds at least the share p of a continuous population. */
export function heldConfidence(n: number, p: number): number {
  return 1 - n * p ** (n - 1) + (n - 1) * p ** n;
}
