import { expect, test } from "vitest";
import { budgetColumns } from "../../src/dossier/budget-columns.js";
import { evidenceStep } from "../../src/metrology/evidence.js";
import { Quantity } from "../../src/metrology/quantity.js";
import { normalSource } from "../../src/metrology/source.js";

const evidence = evidenceStep("stated", []);

test("budgets stand side by side, the source with the largest share anywhere first", () => {
  const part = (label: string, u: number) => ({
    source: normalSource(`${label}${u}`, label, u, "cN"),
    contribution: u,
  });
  const { columns, contributions, others } = budgetColumns([
    new Quantity(1, "cN", [part("Span", 1), part("Zero", 2)], evidence),
    new Quantity(1, "cN", [part("Span", 9), part("Step", 1)], evidence),
  ]);
  expect(columns.map((column) => column.label)).toEqual(["Span", "Zero", "Step"]);
  expect(contributions).toEqual([
    [1, 2, null],
    [9, null, 1],
  ]);
  expect(others).toBeNull();
});

test("beyond eight sources the smallest are added in quadrature, so that nothing of u is lost", () => {
  const parts = Array.from({ length: 12 }, (_, index) => {
    const u = 12 - index;
    return { source: normalSource(`s${index}`, `Source ${index}`, u, "cN"), contribution: u };
  });
  const quantity = new Quantity(1, "cN", parts, evidence);
  const { columns, contributions, others } = budgetColumns([quantity]);
  expect(columns).toHaveLength(8);
  expect(Math.hypot(...contributions[0]!.map((part) => part ?? 0), others![0]!)).toBeCloseTo(quantity.u, 12);
});
