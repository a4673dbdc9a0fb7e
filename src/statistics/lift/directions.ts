import type { Quantity } from "../../metrology/quantity.js";
import type { Source } from "../../metrology/source.js";

/** A way in which the values move together, and the sources that move them so. */
export interface Direction {
  /** By how much each value moves, as pairs of position and step. */
  readonly steps: readonly (readonly [index: number, step: number])[];
  /** Each source's share of the step; 1 for a source that several values share. */
  readonly sources: readonly { readonly source: Source; readonly share: number }[];
}

/**
 * The directions in which the sources of uncertainty move a set of values. A source that several values share moves them
 * together by its own contributions, so that a common offset of a median is carried exactly; the sources of one value alone
 * make one direction of one standard uncertainty. (JCGM 100:2008, 5.1.3 note 2: differences over one standard uncertainty.)
 */
export function directionsOf(quantities: readonly Quantity[]): {
  readonly shared: readonly Direction[];
  readonly own: readonly Direction[];
} {
  const bySource = new Map<string, { source: Source; steps: [number, number][] }>();
  quantities.forEach((quantity, index) => {
    for (const { source, contribution } of quantity.components) {
      if (contribution === 0) continue;
      const known = bySource.get(source.id);
      if (known === undefined) bySource.set(source.id, { source, steps: [[index, contribution]] });
      else known.steps.push([index, contribution]);
    }
  });
  const shared: Direction[] = [];
  const ownOf = new Map<number, { source: Source; contribution: number }[]>();
  for (const { source, steps } of bySource.values()) {
    const [index, contribution] = steps[0]!;
    if (steps.length > 1) shared.push({ steps, sources: [{ source, share: 1 }] });
    else ownOf.set(index, [...(ownOf.get(index) ?? []), { source, contribution }]);
  }
  const own = [...ownOf].map(([index, list]): Direction => {
    const step = Math.hypot(...list.map((entry) => entry.contribution));
    return {
      steps: [[index, step]],
      sources: list.map(({ source, contribution }) => ({ source, share: contribution / step })),
    };
  });
  return { shared, own };
}

/** The values moved along a direction, forwards (+1) or backwards (-1). */
export function moved(values: readonly number[], direction: Direction, sign: 1 | -1): readonly number[] {
  const at = [...values];
  for (const [index, step] of direction.steps) at[index]! += sign * step;
  return at;
}
