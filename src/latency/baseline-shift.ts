import { evidenceStep } from "../metrology/evidence.js";
import { roundToPlaces } from "../metrology/print.js";
import { Quantity } from "../metrology/quantity.js";
import { observedSource } from "../metrology/source.js";
import type { TTest } from "../statistics/tests/t-tests.js";
import { twoSampleTKernel } from "../statistics/tests/t-tests.js";
import type { BaselineReduction } from "./model.js";
import { standardDeviation } from "./kept-mean.js";

/** p below which the two blocks of a baseline count as different beyond noise. */
const shiftLevel = 0.01;

/** The subtracted sums of the usable shots, by block, in order of first appearance. */
export type BlockValues = readonly { readonly block: string; readonly values: readonly number[] }[];

/**
 * The block "after" (else the last) against the block "before" (else the first), by Welch's test at 1 %.
 *
 * @param path prefix of the session's sources
 * @returns the shift, null where there are not two blocks of two shots; and what the page must say
 */
export function blockShift(
  byBlock: BlockValues,
  path: string,
): { readonly shift: BaselineReduction["shift"]; readonly warnings: readonly string[] } {
  const warnings: string[] = [];
  if (byBlock.length < 2) {
    warnings.push(`the baseline has one block, "${byBlock[0]!.block}": a shift during the session cannot be seen`);
    return { shift: null, warnings };
  }
  const before = byBlock.find(({ block }) => block === "before") ?? byBlock[0]!;
  const after = byBlock.find(({ block }) => block === "after") ?? byBlock.at(-1)!;
  if (before.values.length < 2 || after.values.length < 2) {
    warnings.push("a block of the baseline has a single shot: a shift during the session cannot be tested");
    return { shift: null, warnings };
  }
  const { difference, standardError, t, dof, pValue } = compareBlocks(before.values, after.values);
  const beyondNoise = pValue < shiftLevel;
  if (beyondNoise) {
    const p = pValue < 0.0001 ? "p < 0.0001" : `p = ${pValue.toFixed(4)}`;
    warnings.push(
      `the baseline moved by ${roundToPlaces(difference, 2)} ms between block "${before.block}" and block "${after.block}", ` +
        `beyond its noise (Welch's test, ${p}); half of it enters the budget as a rectangular half-width`,
    );
  }
  const source = observedSource(`${path}/baseline-difference`, "Scatter of the blocks", standardError, "ms", dof);
  const shift = {
    difference: new Quantity(
      difference,
      "ms",
      [{ source, contribution: standardError }],
      evidenceStep("block after minus block before", []),
    ),
    t,
    dof,
    pValue,
    beyondNoise,
  };
  return { shift, warnings };
}

/** Welch's test; where neither block scatters, any difference is beyond noise (p = 0) and none is not (p = 1). */
function compareBlocks(
  before: readonly number[],
  after: readonly number[],
): Pick<TTest, "difference" | "standardError" | "dof" | "pValue"> & { readonly t: number | null } {
  if (standardDeviation(before) > 0 || standardDeviation(after) > 0) return twoSampleTKernel(before, after);
  const difference = after[0]! - before[0]!;
  const dof = before.length + after.length - 2;
  return { difference, standardError: 0, t: null, dof, pValue: difference === 0 ? 1 : 0 };
}
