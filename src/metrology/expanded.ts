import normalQuantile from "@stdlib/stats-base-dists-normal-quantile";
import tQuantile from "@stdlib/stats-base-dists-t-quantile";
import type { Quantity } from "./quantity.js";

/** An expanded uncertainty with what is needed to quote it (JCGM 100:2008, 7.2.3 and G.4). */
export interface Expanded {
  /** Half-width U = k u, in the quantity's symbol. */
  readonly U: number;
  /** Coverage factor. */
  readonly k: number;
  /** Effective degrees of freedom (not truncated); Infinity where every component is exactly known. */
  readonly dof: number;
  /** Coverage probability, such as 0.95. */
  readonly level: number;
}

/**
 * Effective degrees of freedom by Welch-Satterthwaite over the components, which are independent because equal sources
 * were merged (JCGM 100:2008, G.4.1, equation G.2b). Components of one block count as one term, with the block's degrees
 * of freedom. Infinity where u is 0 or no component has finite dof.
 */
export function effectiveDof(quantity: Quantity): number {
  const u = quantity.u;
  if (u === 0) return Infinity;
  const blocks = new Map<string, { square: number; dof: number }>();
  for (const { source, contribution } of quantity.components) {
    if (!Number.isFinite(source.dof)) continue;
    const block = blocks.get(source.block ?? `source ${source.id}`);
    const square = (contribution / u) ** 2;
    if (block === undefined) blocks.set(source.block ?? `source ${source.id}`, { square, dof: source.dof });
    else block.square += square;
  }
  let total = 0;
  for (const block of blocks.values()) total += block.square ** 2 / block.dof;
  return total === 0 ? Infinity : 1 / total;
}

/**
 * Expanded uncertainty U = t_p(dof) u, by default at 95 % (JCGM 100:2008, G.6.4; dof truncated down to a whole number
 * of at least 1, as the note to G.4.1 allows).
 */
export function expand(quantity: Quantity, level = 0.95): Expanded {
  if (!(level > 0 && level < 1))
    throw new RangeError(`the coverage probability is ${level}; it must be between 0 and 1`);
  const dof = effectiveDof(quantity);
  const k = coverageFactor(dof, level);
  return { U: k * quantity.u, k, dof, level };
}

/** Two-sided coverage factor of Student's distribution, dof truncated down; of the normal one for infinite dof. */
export function coverageFactor(dof: number, level = 0.95): number {
  if (!(dof > 0)) throw new RangeError(`the degrees of freedom are ${dof}; they must be above 0`);
  const p = (1 + level) / 2;
  return Number.isFinite(dof) ? tQuantile(p, wholeDof(dof)) : normalQuantile(p, 0, 1);
}

/** Degrees of freedom truncated down to a whole number of at least 1 (JCGM 100:2008, G.4.1), rounding errors forgiven. */
export function wholeDof(dof: number): number {
  return Math.max(1, Math.floor(dof * (1 + 1e-9)));
}
