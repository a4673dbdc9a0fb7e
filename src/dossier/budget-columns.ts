import type { BudgetLine } from "../metrology/budget.js";
import { budgetOf } from "../metrology/budget.js";
import type { Quantity } from "../metrology/quantity.js";
import { shortNumberText } from "./render-number.js";

/** Fewest numbers whose equal contributions are said once instead of in a column. */
const leastAlike = 3;

/** Most sources of uncertainty that get a column of their own; the smallest of the others are added up. */
const mostColumns = 8;

/** The budgets of several quantities side by side: one column a source, one row a quantity. */
export interface BudgetColumns {
  readonly columns: readonly BudgetColumn[];
  /** By quantity, then column: contribution in the quantity's symbol; null where it has no such source. */
  readonly contributions: readonly (readonly (number | null)[])[];
  /** By quantity: root sum of squares of what has no column; null where nothing is left over. */
  readonly others: readonly (number | null)[] | null;
}

export interface BudgetColumn {
  readonly label: string;
  readonly type: "A" | "B";
  readonly distribution: BudgetLine["distribution"];
  /** Smallest and largest degrees of freedom in the column. */
  readonly dof: readonly [number, number];
  /** Most independent sources that one number gathers under the label. */
  readonly sources: number;
  /** The contribution to every number, where all of them have it and print it alike; it then needs no column. */
  readonly alike: string | null;
}

/**
 * Lays the budgets of quantities side by side, the source with the largest share anywhere first (ties by label); beyond
 * eight sources the smallest are added in quadrature under "others".
 */
export function budgetColumns(quantities: readonly Quantity[]): BudgetColumns {
  const budgets = quantities.map((quantity) => {
    const lines = budgetOf(quantity).lines;
    return new Map(lines.map((line) => [keyOf(line), line]));
  });
  const keys = new Map<string, { lines: BudgetLine[]; largest: number }>();
  for (const budget of budgets) {
    for (const [key, line] of budget) {
      const known = keys.get(key) ?? { lines: [], largest: 0 };
      known.lines.push(line);
      known.largest = Math.max(known.largest, line.share);
      keys.set(key, known);
    }
  }
  const order = [...keys].sort((a, b) => b[1].largest - a[1].largest || (a[0] < b[0] ? -1 : 1));
  const shown = order.slice(0, order.length > mostColumns + 1 ? mostColumns : order.length);
  const rest = order.slice(shown.length).map(([key]) => key);
  return {
    columns: shown.map(([, { lines }]) => describeColumn(lines, quantities.length)),
    contributions: budgets.map((budget) => shown.map(([key]) => budget.get(key)?.contribution ?? null)),
    others:
      rest.length === 0
        ? null
        : budgets.map((budget) => {
            const left = rest.flatMap((key) => budget.get(key)?.contribution ?? []);
            return left.length === 0 ? null : Math.hypot(...left);
          }),
  };
}

function keyOf(line: BudgetLine): string {
  return `${line.label}\n${line.type}\n${line.distribution}`;
}

function describeColumn(lines: readonly BudgetLine[], quantities: number): BudgetColumn {
  const texts = new Set(lines.map(({ contribution }) => shortNumberText(contribution)));
  const { label, type, distribution } = lines[0]!;
  const dofs = lines.map((line) => line.dof);
  return {
    label,
    type,
    distribution,
    dof: [Math.min(...dofs), Math.max(...dofs)],
    sources: Math.max(...lines.map((line) => line.sources)),
    alike: texts.size === 1 && lines.length === quantities && quantities >= leastAlike ? [...texts][0]! : null,
  };
}
