import { kindMismatch } from "./curve-kind.js";
import type { CurveFlag, KeyReduction } from "./model.js";
import type { ReductionContext } from "./reduction-context.js";

/** Press speeds that differ by more than this share are said to differ. */
const speedShare = 0.02;

/**
 * Remarks on one key: `kind_mismatch` where the unit's description and the curves disagree, `few_cycles` where fewer cycles
 * are used than the method says.
 */
export function keyFlags(key: KeyReduction, usedCycles: number, context: ReductionContext): readonly CurveFlag[] {
  const flags: CurveFlag[] = [];
  const mismatch = kindMismatch(context.describedKind, key.curveKind);
  if (mismatch !== null) flags.push({ code: "kind_mismatch", message: mismatch, key: key.key, cycle: 0 });
  const wanted = context.method.cyclesUsed.length;
  if (usedCycles < wanted) {
    const message = `${usedCycles} of the ${wanted} cycles that the method uses are there`;
    flags.push({ code: "few_cycles", message, key: key.key, cycle: 0 });
  }
  return flags;
}

/**
 * Remarks on the session: `press_speed` where it is not the method's or not stated, `few_keys` below the method's minimum,
 * `extra_key` for each recorded key that the method does not name.
 */
export function sessionFlags(
  recordedKeys: readonly string[],
  keys: readonly KeyReduction[],
  context: ReductionContext,
): readonly CurveFlag[] {
  const { method, pressSpeed } = context;
  const flags: CurveFlag[] = [];
  const wanted = method.pressSpeed.value;
  if (pressSpeed === undefined) {
    flags.push({ code: "press_speed", message: `the session states no press speed; the method asks for ${wanted} mm/s`, key: "", cycle: 0 }); // prettier-ignore
  } else if (Math.abs(pressSpeed.value - wanted) > speedShare * wanted) {
    const message = `the press speed was ${pressSpeed.value} mm/s where the method asks for ${wanted} mm/s: another measurand, not to be compared without saying so`;
    flags.push({ code: "press_speed", message, key: "", cycle: 0 });
  }
  const measured = keys.filter((key) => key.cycles.some((cycle) => cycle.used)).length;
  if (measured < method.minKeys) {
    const message = `${measured} keys have a used cycle; the method asks for at least ${method.minKeys}`;
    flags.push({ code: "few_keys", message, key: "", cycle: 0 });
  }
  for (const key of recordedKeys) {
    if (method.keys.includes(key)) continue;
    flags.push({ code: "extra_key", message: `${key} was recorded but is not among the method's keys; it is left out`, key, cycle: 0 }); // prettier-ignore
  }
  return flags;
}
