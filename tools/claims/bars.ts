import binomialCdf from "@stdlib/stats-base-dists-binomial-cdf";

/** A report may make a false claim in this share of archives, and of this many archives in so many at most. */
export const falseClaims = { share: 0.05, archives: 200, most: 16 } as const;

/** An effect of its stated size must be found in this share of archives. */
export const wantedPower = 0.9;

/**
 * Most archives with a false claim that a report may have: 16 of 200, and for other numbers the smallest count that a
 * report with a share of exactly 5 % oversteps no oftener than it oversteps 16 of 200.
 * @param archives number of archives with nothing planted, at least 1
 */
export function mostFalse(archives: number): number {
  const risk = overstep(falseClaims.most, falseClaims.archives);
  const count = Array.from({ length: archives }, (_, most) => most).find((most) => overstep(most, archives) <= risk);
  return count ?? archives;
}

/**
 * Fewest archives in which an effect must be found, so that one that is found in exactly 90 % falls short no oftener than a
 * report with 5 % false claims oversteps its bar. For small numbers of archives; a full run asks for 90 % itself.
 * @param archives number of archives with the effect, at least 1
 */
export function fewestFound(archives: number): number {
  const risk = overstep(falseClaims.most, falseClaims.archives);
  let fewest = 0;
  while (binomialCdf(fewest, archives, wantedPower) <= risk) fewest++;
  return fewest;
}

function overstep(most: number, archives: number): number {
  return 1 - binomialCdf(most, archives, falseClaims.share);
}
