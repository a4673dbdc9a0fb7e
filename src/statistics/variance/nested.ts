import { liftFactors } from "../lift/lift-factors.js";
import { Undetermined, checkOptions, checkValues } from "../numeric/guards.js";
import { fUpper } from "../numeric/distributions.js";
import type { Levels } from "../numeric/layout.js";
import { distinct, groupsOf, levelsOf } from "../numeric/layout.js";
import { meanOf, squaredDeviations, sumOf } from "../numeric/sums.js";
import type { VarianceComponent } from "./modified-large-sample.js";
import { componentShape, modifiedLargeSampleKernel } from "./modified-large-sample.js";

export interface NestedLine {
  readonly factor: string;
  readonly ss: number;
  readonly dof: number;
  readonly ms: number;
  /** Against the line below; null for the last line, and where that is 0. */
  readonly F: number | null;
  readonly pValue: number | null;
  readonly component: VarianceComponent;
}

/**
 * Balanced nested analysis of variance with random levels: each factor within those before it, the repeats last; component of
 * a level = (MS of it - MS of the next)/(number of values in one of its groups), with modified-large-sample intervals.
 * @param values finite numbers, one a combination of levels and repeat
 * @param factors levels of each factor, outermost first; a level's name need only be unique within its parent
 * @param options level: default 0.95
 * @throws Undetermined where the groups of a level differ in size or number (use reml), or there are no repeats
 * Source: Searle, Casella and McCulloch, Variance Components (1992), 3.8; NIST/SEMATECH e-Handbook, 2.3.3.3.
 */
export function nestedKernel(
  values: readonly number[],
  factors: Levels,
  options: { readonly level?: number } = {},
): readonly NestedLine[] {
  checkOptions(options, ["level"], "nested");
  const names = Object.keys(factors);
  const procedure = "a nested analysis";
  checkValues(values, 4, procedure);
  if (names.length === 0) throw new RangeError("a nested analysis needs at least one factor");
  const origin = values[0]!;
  const shifted = values.map((value) => value - origin);
  let path = values.map(() => "");
  let parents = values.map(() => meanOf(shifted));
  let groupsAbove = 1;
  const lines: { factor: string; ss: number; dof: number; size: number }[] = [];
  for (const name of names) {
    const levels = levelsOf(factors, name, values.length, procedure);
    path = path.map((prefix, i) => `${prefix}${JSON.stringify(levels[i])}/`);
    const { names: groupNames, groups } = groupsOf(shifted, path);
    const size = groups[0]!.length;
    const odd = groups.findIndex((group) => group.length !== size);
    if (odd >= 0) {
      throw new Undetermined(
        `${procedure} needs groups of one size; ${name} has ${groups[odd]!.length} and ${size}; use reml`,
      );
    }
    const meanByName = new Map(groupNames.map((group, i) => [group, meanOf(groups[i]!)]));
    const means = path.map((group) => meanByName.get(group)!);
    lines.push({
      factor: name,
      ss: sumOf(means.map((m, i) => (m - parents[i]!) ** 2)),
      dof: groups.length - groupsAbove,
      size,
    });
    parents = means;
    groupsAbove = groups.length;
  }
  const { groups } = groupsOf(shifted, path);
  lines.push({
    factor: "repeat",
    ss: sumOf(groups.map(squaredDeviations)),
    dof: values.length - groups.length,
    size: 1,
  });
  const idle = lines.find((line) => line.dof < 1);
  if (idle)
    throw new Undetermined(`${procedure} cannot separate ${idle.factor}: it has no repeats within the level above`);
  if (distinct(path).length !== groupsAbove) throw new RangeError("the levels of a nested analysis are inconsistent");
  return lines.map((line, i) => {
    const ms = line.ss / line.dof;
    const next = lines[i + 1];
    const below = next === undefined ? undefined : next.ss / next.dof;
    const F = below === undefined || below === 0 ? null : ms / below;
    const own = { coefficient: 1 / line.size, meanSquare: ms, dof: line.dof };
    return {
      factor: line.factor,
      ss: line.ss,
      dof: line.dof,
      ms,
      F,
      pValue: F === null ? null : fUpper(F, line.dof, next!.dof),
      component: modifiedLargeSampleKernel(
        below === undefined ? [own] : [own, { coefficient: -1 / line.size, meanSquare: below, dof: next!.dof }],
        options,
      ),
    };
  });
}

/** Balanced nested analysis of measured values; the factors in order, outermost first. */
export const nested = liftFactors(
  nestedKernel,
  [
    {
      factor: "text",
      ss: "squared",
      dof: "count",
      ms: "squared",
      F: "statistic",
      pValue: "statistic",
      component: componentShape,
    },
  ],
  { name: "nested analysis of variance" },
);
