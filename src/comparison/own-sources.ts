import { Quantity, effectiveDof } from "../metrology/index.js";
import type { Component, Source } from "../metrology/index.js";
import { wholeDof } from "../metrology/expanded.js";

/** From here on Student's distribution is drawn as a normal one of the same variance. */
const nearlyNormalDof = 30;

/**
 * The same quantities with fewer sources, for drawing them together many times: all sources that only one of them has become
 * one source of their combined standard uncertainty and effective degrees of freedom; what several share stays as it is.
 * Above 30 degrees of freedom that source is normal with the variance of Student's distribution, ν/(ν - 2) times u²
 * (JCGM 101:2008, 6.4.9.4). So a joint distribution keeps its covariances exactly, and its margins as the law of
 * propagation gives them.
 *
 * @param quantities in any order; a quantity with a single source of its own keeps it, with its own shape
 */
export function gatherOwnSources(quantities: readonly Quantity[]): readonly Quantity[] {
  const holders = new Map<string, number>();
  for (const { components } of quantities) {
    for (const { source } of components) holders.set(source.id, (holders.get(source.id) ?? 0) + 1);
  }
  return quantities.map((quantity, index) => {
    const own = quantity.components.filter(({ source }) => holders.get(source.id) === 1);
    if (own.length < 2) return quantity;
    const shared = quantity.components.filter(({ source }) => holders.get(source.id)! > 1);
    return new Quantity(
      quantity.value,
      quantity.symbol,
      [...shared, gathered(own, quantity, index)],
      quantity.evidence,
    );
  });
}

function gathered(own: readonly Component[], { value, symbol, evidence }: Quantity, index: number): Component {
  const part = new Quantity(value, symbol, own, evidence);
  const dof = wholeDof(effectiveDof(part));
  const isStudent = dof <= nearlyNormalDof;
  const u = isStudent || dof === Infinity ? part.u : part.u * Math.sqrt(dof / (dof - 2));
  const source: Source = {
    id: `own/${index}`,
    label: "Sources of one value alone",
    type: "B",
    distribution: isStudent ? "t" : "normal",
    u,
    symbol,
    dof: isStudent ? dof : Infinity,
  };
  return { source, contribution: u };
}
