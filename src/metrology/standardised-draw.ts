import gammaQuantile from "@stdlib/stats-base-dists-gamma-quantile";
import type { Random } from "./random.js";
import type { Source } from "./source.js";

/**
 * One standardised draw of a source: mean 0 and unit scale, so that contribution x draw is the error of one trial
 * (JCGM 101:2008, 6.4). A type A source draws from Student's distribution of its degrees of freedom (6.4.9.2).
 */
export function drawStandardised(source: Source, random: Random): number {
  switch (source.distribution) {
    case "rectangular":
      return Math.sqrt(3) * (2 * random.uniform() - 1);
    case "triangular":
      return Math.sqrt(6) * (random.uniform() + random.uniform() - 1);
    case "arcsine":
      return Math.SQRT2 * Math.sin(Math.PI * (2 * random.uniform() - 1));
    case "normal":
    case "t":
      if (!Number.isFinite(source.dof)) return random.normal();
      return random.normal() / Math.sqrt(drawChiSquare(source.dof, random) / source.dof);
  }
}

/** Chi-square by summing squares for small whole degrees of freedom, else by its quantile. */
function drawChiSquare(dof: number, random: Random): number {
  if (!Number.isInteger(dof) || dof > 30) return 2 * gammaQuantile(random.uniform(), dof / 2, 1);
  let total = 0;
  for (let i = 0; i < dof; i++) total += random.normal() ** 2;
  return total;
}
