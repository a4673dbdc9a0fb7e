import type { Evidence } from "../metrology/evidence.js";
import { evidenceStep } from "../metrology/evidence.js";
import type { Measured } from "../metrology/quantity.js";
import { Absent, Quantity } from "../metrology/quantity.js";
import type { Stroke } from "../records/readings.js";
import { buildCharacteristics, characteristicEvidence, characteristicNames } from "./characteristics.js";
import { contactEdge } from "./contact-edge.js";
import type { TesterTerms } from "./correction.js";
import { correctStroke } from "./correction.js";
import type { CycleCurves, ReleaseCurve } from "./cycle-curves.js";
import type { Estimates } from "./cycle-estimates.js";
import { allMissing, cycleEstimates } from "./cycle-estimates.js";
import { drawnCurve } from "./drawn-curve.js";
import type { Found } from "./estimate.js";
import { componentsOf, missing } from "./estimate.js";
import type { CurveFlag, CycleReduction } from "./model.js";
import { reportNote, withoutReportDelay } from "./places.js";
import type { PressCurve } from "./press-curve.js";
import { pressCurve } from "./press-curve.js";
import { profileOf } from "./profile.js";
import { curveFlags } from "./quality-flags.js";
import type { ReductionContext } from "./reduction-context.js";
import { sessionPath } from "./reduction-context.js";
import { strokeSources } from "./stroke-sources.js";

/** The strokes of one cycle of one key. */
export interface CycleStrokes {
  readonly key: string;
  readonly cycle: number;
  readonly press: Stroke | null;
  readonly release: Stroke | null;
  /** Strokes of the same kind beyond the first, which are not used. */
  readonly surplus: number;
}

/** A reduced cycle with what the key still needs of it. */
export interface ReducedCycle {
  readonly reduction: CycleReduction;
  readonly estimates: Estimates;
  readonly press: PressCurve | null;
}

/**
 * Reduces one cycle. It is used where the method counts it and nobody excluded it; an excluded one is reduced all the
 * same, so that the page can show it.
 */
export function reduceCycle(strokes: CycleStrokes, context: ReductionContext, tester: TesterTerms): ReducedCycle {
  const { key, cycle } = strokes;
  const sources = strokeSources(sessionPath(context), key, cycle);
  const { method } = context;
  const windowMm = method.smoothingWindow.value;
  const usesContact = context.contactSource !== "none";
  const pressRows = strokes.press && correctStroke(strokes.press, tester);
  const releaseRows = strokes.release && correctStroke(strokes.release, tester);
  const press: Found<PressCurve> =
    pressRows === null ? missing("no press stroke was recorded") : pressCurve(pressRows, method, sources);
  const withoutContact = missing("the session has no contact readings (contact source: none)");
  const edge = (rows: typeof pressRows & object, direction: 1 | -1): CycleCurves["actuation"] =>
    usesContact ? withoutReportDelay(contactEdge(rows, windowMm, sources), direction, context) : withoutContact;
  const release: Found<ReleaseCurve> =
    releaseRows === null
      ? missing("no release stroke was recorded")
      : {
          found: true,
          at: { stroke: releaseRows, profile: profileOf(releaseRows, windowMm), reset: edge(releaseRows, -1) },
        };
  let estimates: Estimates;
  let flags: readonly CurveFlag[];
  if (press.found) {
    const curves: CycleCurves = { press: press.at, actuation: edge(press.at.stroke, 1), release };
    estimates = cycleEstimates(curves, context, tester, sources);
    flags = curveFlags(curves, method, usesContact);
  } else {
    estimates = allMissing(characteristicNames, press.reason);
    flags = [{ code: "no_touch", message: press.reason, key, cycle }];
  }
  if (strokes.surplus > 0) {
    const message = `${strokes.surplus} more stroke${strokes.surplus === 1 ? "" : "s"} of this cycle recorded; only the first of each kind is used`;
    flags = [...flags, { code: "surplus_stroke", message, key, cycle }];
  }
  const standing = standingOf(key, cycle, context);
  const evidence = cycleEvidence(strokes, context, tester, standing.exclusion);
  const note = reportNote(context);
  const touchMm = press.found ? press.at.touch.xMm : (pressRows?.xMm[0] ?? 0);
  return {
    reduction: {
      key,
      cycle,
      used: standing.reason === "",
      reason: standing.reason,
      characteristics: buildCharacteristics((name, symbol): Measured => {
        const estimate = estimates[name];
        if (!estimate.found) return new Absent(symbol, estimate.reason, evidence);
        const byContact = name === "preTravel" || /actuat|reset|differential|operating/i.test(name);
        const own = characteristicEvidence(name, [evidence], byContact && note !== "" ? note : undefined);
        return new Quantity(estimate.value, symbol, componentsOf(estimate.terms), own);
      }),
      curve: drawnCurve(pressRows, releaseRows, touchMm),
      flags,
      evidence,
    },
    estimates,
    press: press.found ? press.at : null,
  };
}

interface Standing {
  /** Why the cycle is not used; empty where it is. */
  readonly reason: string;
  readonly exclusion: Evidence | null;
}

function standingOf(key: string, cycle: number, context: ReductionContext): Standing {
  const exclusion = context.exclusions.find((each) => each.key === key && each.cycle === cycle);
  if (exclusion !== undefined)
    return { reason: `excluded by hand: ${exclusion.reason}`, exclusion: exclusion.evidence };
  const counted = context.method.cyclesUsed;
  if (!counted.includes(cycle)) {
    return { reason: `the method uses cycles ${counted.join(", ")}`, exclusion: null };
  }
  return { reason: "", exclusion: null };
}

function cycleEvidence(
  strokes: CycleStrokes,
  context: ReductionContext,
  tester: TesterTerms,
  exclusion: Evidence | null,
): Evidence {
  const inputs: Evidence[] = [];
  for (const stroke of [strokes.press, strokes.release]) if (stroke) inputs.push(stroke.evidence);
  inputs.push(context.method.evidence, ...tester.evidence);
  if (context.evidence) inputs.push(context.evidence);
  if (exclusion) inputs.push(exclusion);
  return evidenceStep(`cycle ${strokes.cycle} of ${strokes.key}, reduced by ${context.method.id}`, inputs);
}
