import { divisorOf } from "./source.js";
import type { Distribution } from "./source.js";
import type { Quantity } from "./quantity.js";
import type { Expanded } from "./expanded.js";
import { expand } from "./expanded.js";

/** One line of a budget: all components of one label, added in quadrature, since their sources are independent. */
export interface BudgetLine {
  readonly label: string;
  readonly type: "A" | "B";
  readonly distribution: Distribution;
  /** Number of independent sources that the line gathers. */
  readonly sources: number;
  /** Standard uncertainty of the input and its symbol, where the line holds one source; else null. */
  readonly input: { readonly u: number; readonly symbol: string } | null;
  readonly divisor: number;
  /** Sensitivity coefficient, where the line holds one source with u > 0; else null. */
  readonly sensitivity: number | null;
  /** |contribution| to u, in the quantity's symbol. */
  readonly contribution: number;
  /** Effective degrees of freedom of the line. */
  readonly dof: number;
  /** Share of u^2, 0 to 1. */
  readonly share: number;
}

export interface Budget {
  readonly symbol: string;
  /** Largest contribution first; ties by label. */
  readonly lines: readonly BudgetLine[];
  readonly u: number;
  readonly expanded: Expanded;
}

/**
 * The uncertainty budget of a quantity as a table (JCGM 100:2008, 8, H.1.6): one line a label, largest first. An
 * absent quantity has none; a quantity without components has no lines and u = 0.
 */
export function budgetOf(quantity: Quantity, level = 0.95): Budget {
  const u = quantity.u;
  const groups = new Map<string, Quantity["components"][number][]>();
  for (const component of quantity.components) {
    if (component.contribution === 0) continue;
    const { label, type, distribution } = component.source;
    const key = `${label}\n${type}\n${distribution}`;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [component]);
    else group.push(component);
  }
  const lines = [...groups.values()].map((group): BudgetLine => {
    const { source, contribution: only } = group[0]!;
    const contribution = Math.hypot(...group.map((c) => c.contribution));
    const tail = group.reduce((total, c) => total + (c.contribution / contribution) ** 4 / c.source.dof, 0);
    const single = group.length === 1;
    return {
      label: source.label,
      type: source.type,
      distribution: source.distribution,
      sources: group.length,
      input: single ? { u: source.u, symbol: source.symbol } : null,
      divisor: divisorOf(source.distribution),
      sensitivity: single && source.u > 0 ? only / source.u : null,
      contribution,
      dof: tail > 0 ? 1 / tail : Infinity,
      share: u > 0 ? (contribution / u) ** 2 : 0,
    };
  });
  lines.sort((a, b) => b.contribution - a.contribution || (a.label < b.label ? -1 : 1));
  return { symbol: quantity.symbol, lines, u, expanded: expand(quantity, level) };
}
