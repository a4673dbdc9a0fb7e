import { mean } from "d3-array";
import { evidenceStep } from "../metrology/evidence.js";
import { Absent, Quantity } from "../metrology/quantity.js";
import { observedSource } from "../metrology/source.js";
import type { BaselineShot } from "../records/readings.js";
import type { BlockValues } from "./baseline-shift.js";
import { standardDeviation } from "./kept-mean.js";
import type { BaselinePart } from "./model.js";

/**
 * Mean and sd of every part of the baseline in every block, with the sum that is subtracted; a part that a block does
 * not separate is absent with that reason.
 *
 * @param byBlock the subtracted sums
 * @param path prefix of the session's sources
 */
export function baselineParts(
  shots: readonly BaselineShot[],
  byBlock: BlockValues,
  path: string,
): readonly BaselinePart[] {
  const readers = { input: "inputMs", pc: "pcMs", display: "displayMs", total: "totalMs" } as const;
  return [...new Set(shots.map((shot) => shot.block))].flatMap((block) => {
    const inBlock = shots.filter((shot) => shot.block === block);
    const named = Object.entries(readers).map(([part, field]) => ({
      part: part as keyof typeof readers,
      values: inBlock
        .map((shot) => shot[field])
        .filter((value) => value !== null && Number.isFinite(value)) as number[],
    }));
    const subtracted = { part: "subtracted" as const, values: byBlock.find((b) => b.block === block)?.values ?? [] };
    return [...named, subtracted].map(({ part, values }): BaselinePart => {
      const evidence = evidenceStep(
        `mean of ${part} in block "${block}"`,
        inBlock.map((shot) => shot.evidence),
      );
      if (values.length === 0) {
        const reason = `the baseline does not separate the part "${part}" in block "${block}"`;
        return { block, part, shots: 0, mean: new Absent("ms", reason, evidence), sdMs: null };
      }
      const sdMs = values.length < 2 ? null : standardDeviation(values);
      const components =
        sdMs === null
          ? []
          : [
              observedSource(
                `${path}/baseline/${block}/${part}`,
                `Scatter of ${part}`,
                sdMs / Math.sqrt(values.length),
                "ms",
                values.length - 1,
              ),
            ];
      return {
        block,
        part,
        shots: values.length,
        mean: new Quantity(
          mean(values)!,
          "ms",
          components.map((source) => ({ source, contribution: source.u })),
          evidence,
        ),
        sdMs,
      };
    });
  });
}
