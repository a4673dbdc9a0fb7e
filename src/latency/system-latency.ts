import { mean } from "d3-array";
import { evidenceStep } from "../metrology/evidence.js";
import { Absent, Quantity } from "../metrology/quantity.js";
import type { Measured } from "../metrology/quantity.js";
import { boundedSource, observedSource } from "../metrology/source.js";
import type { Component } from "../metrology/source.js";
import type { BaselineShot } from "../records/readings.js";
import { baselineParts } from "./baseline-parts.js";
import { blockShift } from "./baseline-shift.js";
import type { LatencyContext } from "./context.js";
import { sessionPath } from "./context.js";
import { standardDeviation } from "./kept-mean.js";
import type { BaselineReduction } from "./model.js";
import { readRigTerm } from "./rig-term.js";
import { subtractedMs } from "./subtracted-parts.js";

/** The system latency of a session with what it was made of. */
export interface SystemLatency {
  readonly system: Measured<"ms">;
  /** null where the method subtracts nothing. */
  readonly baseline: BaselineReduction | null;
  readonly warnings: readonly string[];
}

/**
 * Latency of computer and display from the session's baseline (measurement model, section 4): the mean over blocks of
 * the sum of the parts that the method subtracts, plus the rig's detector offset (where the display is subtracted) and
 * input path (where the computer is).
 *
 * Components: the baseline's scatter, s / sqrt(m) with s pooled within blocks, under the session's id, so that it is
 * shared by the session's connections and by nothing else; detector offset and input path under the rig's calibration,
 * so that they cancel between units of one rig. Blocks that differ beyond noise (Welch, p < 0.01) are flagged, and half
 * their difference enters as a rectangular half-width. The baseline device's own input part is never subtracted.
 *
 * Absent where the method subtracts nothing, or where fewer than two shots give the parts.
 */
export function systemLatency(shots: readonly BaselineShot[], context: LatencyContext): SystemLatency {
  const { method } = context;
  const path = sessionPath(context);
  if (method.subtract.length === 0) {
    const reason = "the method subtracts no part of the system's latency";
    return { system: new Absent("ms", reason, method.evidence), baseline: null, warnings: [] };
  }
  const declared = readRigTerm(context, "baselineInput");
  const used = shots.flatMap((shot) => {
    const found = subtractedMs(shot, method.subtract, declared?.value ?? null);
    return found === null ? [] : [{ shot, ...found }];
  });
  const warnings: string[] = [];
  const parts = method.subtract.join(" and ");
  if (used.length < shots.length) {
    warnings.push(`${shots.length - used.length} of ${shots.length} baseline shots do not give ${parts}: not used`);
  }
  const blocks = [...new Set(shots.map((shot) => shot.block))];
  const byBlock = blocks
    .map((block) => ({ block, values: used.filter((each) => each.shot.block === block).map((each) => each.valueMs) }))
    .filter(({ values }) => values.length > 0);
  const evidence = evidenceStep(`system latency: ${parts} of the baseline`, [
    ...shots.map((shot) => shot.evidence),
    method.evidence,
  ]);
  const dof = used.length - byBlock.length;
  if (dof < 1) {
    const reason =
      shots.length === 0
        ? "no baseline was recorded in this session"
        : `${used.length} baseline shots give ${parts}; two or more in one block are needed`;
    const baseline = { parts: baselineParts(shots, byBlock, path), shift: null };
    return { system: new Absent("ms", reason, evidence), baseline, warnings };
  }
  for (const { block, values } of byBlock) {
    if (values.length < method.baselineShots) {
      const asked = `the method asks for ${method.baselineShots}`;
      warnings.push(`baseline block "${block}" has ${values.length} usable shots; ${asked}`);
    }
  }
  const detectors = [...new Set(used.map(({ shot }) => shot.detector))];
  if (detectors.length > 1) warnings.push(`the baseline was taken with several detectors: ${detectors.join(", ")}`);
  const { shift, warnings: ofShift } = blockShift(byBlock, path);
  warnings.push(...ofShift);

  const squares = byBlock.reduce((total, { values }) => total + sumOfSquares(values), 0);
  const pooledSd = Math.sqrt(squares / dof);
  const scale = Math.sqrt(byBlock.reduce((total, { values }) => total + 1 / values.length, 0)) / byBlock.length;
  const noise = observedSource(`${path}/baseline`, "Scatter of the baseline", pooledSd * scale, "ms", dof);
  const components: Component[] = [{ source: noise, contribution: noise.u }];
  if (shift?.beyondNoise === true && !shift.difference.absent) {
    const halfWidth = Math.abs(shift.difference.value) / 2;
    const drift = boundedSource(`${path}/baseline-shift`, "Shift of the baseline between blocks", halfWidth, "ms");
    components.push({ source: drift, contribution: drift.u });
  }
  let value = mean(byBlock, ({ values }) => mean(values)!)!;
  if (used.some((each) => each.declaredInput) && declared !== null) {
    const share = used.filter((each) => each.declaredInput).length / used.length;
    components.push({ source: declared.source, contribution: -share * declared.source.u });
    warnings.push(
      "the baseline's total holds its device's own input part; the value declared for the rig is taken off",
    );
  }
  const rigEvidence = [];
  for (const [name, part] of [["detectorOffset", "display"] as const, ["inputPath", "pc"] as const]) {
    if (!method.subtract.includes(part)) continue;
    const term = readRigTerm(context, name);
    if (term === null) {
      const words =
        name === "detectorOffset" ? "the baseline detector against film" : "the baseline device's input path";
      warnings.push(`no calibration of rig ${context.rig.id} in force states ${words}: it is not in the budget`);
      continue;
    }
    value += term.value;
    components.push({ source: term.source, contribution: term.source.u });
    rigEvidence.push(term.evidence);
  }
  const system = new Quantity(
    value,
    "ms",
    components,
    rigEvidence.length === 0
      ? evidence
      : evidenceStep("corrected by the rig's calibration", [evidence, ...rigEvidence]),
  );
  return { system, baseline: { parts: baselineParts(shots, byBlock, path), shift }, warnings };
}

function sumOfSquares(values: readonly number[]): number {
  return values.length < 2 ? 0 : standardDeviation(values) ** 2 * (values.length - 1);
}
