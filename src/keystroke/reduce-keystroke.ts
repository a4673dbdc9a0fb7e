import { evidenceStep } from "../metrology/evidence.js";
import type { Measured } from "../metrology/quantity.js";
import type { Stroke } from "../records/readings.js";
import { buildCharacteristics, characteristicNames, characteristicSymbols } from "./characteristics.js";
import { testerTerms } from "./correction.js";
import { curveKind } from "./curve-kind.js";
import type { Estimate } from "./estimate.js";
import { missing, term } from "./estimate.js";
import { withoutFitBias } from "./fit-bias.js";
import type { CycleValue } from "./key-value.js";
import { keyPath, keyValue } from "./key-value.js";
import type { KeyReduction, KeystrokeReduction } from "./model.js";
import type { PressCurve } from "./press-curve.js";
import type { CycleStrokes, ReducedCycle } from "./reduce-cycle.js";
import { reduceCycle } from "./reduce-cycle.js";
import type { ReductionContext } from "./reduction-context.js";
import { sessionPath } from "./reduction-context.js";
import { repeatability } from "./repeatability.js";
import { medoid } from "./representative-key.js";
import { keyFlags, sessionFlags } from "./session-flags.js";
import { strokeSources } from "./stroke-sources.js";

interface ReducedKey {
  readonly key: string;
  readonly cycles: readonly ReducedCycle[];
  readonly used: readonly ReducedCycle[];
}

/**
 * Reduces the strokes of one keystroke session to the characteristics of its keys (docs/methods.md; measurement model,
 * sections 1 to 3). Pure: the same strokes and context give the same result, and nothing is read or kept.
 *
 * @param strokes of any order; a key that the method does not name is left out and flagged
 * @returns keys in the method's order; those without strokes in `missingKeys`; every characteristic a quantity with
 *   components and evidence, or absent with its reason
 * @throws RangeError for readings that are not finite or a calibration term that cannot be used
 */
export function reduceKeystroke(strokes: readonly Stroke[], context: ReductionContext): KeystrokeReduction {
  const tester = testerTerms(context.rig);
  const { method } = context;
  const byKey = groupStrokes(strokes);
  const reduced = withoutFitBias(
    method.keys.flatMap((key) => (byKey.get(key) ?? []).map((each) => reduceCycle(each, context, tester))),
  );
  const keys: ReducedKey[] = method.keys.flatMap((key) => {
    if (!byKey.has(key)) return [];
    const cycles = reduced.filter((cycle) => cycle.reduction.key === key);
    return [{ key, cycles, used: cycles.filter((cycle) => cycle.reduction.used) }];
  });
  const values = keyCharacteristics(keys, context);
  const reductions = keys.map((reduced, i) => describeKey(reduced, values[i]!, context));
  const presses = reductions.map((key, i) => pressOf(keys[i]!, key.medianCycle));
  const present = presses.flatMap((press, i) => (press === null ? [] : [{ press, key: keys[i]!.key }]));
  return {
    kind: "keystroke",
    unit: context.unit,
    session: context.session,
    method: method.id,
    keys: reductions,
    missingKeys: method.keys.filter((key) => !byKey.has(key)),
    representativeKey: present[medoid(present.map((each) => each.press))]?.key ?? keys[0]?.key ?? "",
    flags: [
      ...sessionFlags([...byKey.keys()], reductions, context),
      ...keys.flatMap((reduced, i) => keyFlags(reductions[i]!, reduced.used.length, context)),
      ...reductions.flatMap((key) => key.cycles.flatMap((cycle) => cycle.flags)),
    ],
  };
}

/** The keys of a reduction, in the method's order; what a cell works on. */
export function keystrokes(reduction: KeystrokeReduction): readonly KeyReduction[] {
  return reduction.keys;
}

function groupStrokes(strokes: readonly Stroke[]): ReadonlyMap<string, readonly CycleStrokes[]> {
  const keys = new Map<string, Map<number, CycleStrokes>>();
  for (const stroke of strokes) {
    const cycles = keys.get(stroke.key) ?? new Map<number, CycleStrokes>();
    keys.set(stroke.key, cycles);
    const known = cycles.get(stroke.cycle) ?? {
      key: stroke.key,
      cycle: stroke.cycle,
      press: null,
      release: null,
      surplus: 0,
    };
    cycles.set(
      stroke.cycle,
      known[stroke.stroke] === null ? { ...known, [stroke.stroke]: stroke } : { ...known, surplus: known.surplus + 1 },
    );
  }
  return new Map(
    [...keys].map(([key, cycles]) => [key, [...cycles.values()].sort((a, b) => a.cycle - b.cycle)] as const),
  );
}

type KeyValues = Readonly<Record<string, Measured>>;

/** Every characteristic (and the prominence) of every key; the scatter of the cycles is pooled over the keys. */
function keyCharacteristics(keys: readonly ReducedKey[], context: ReductionContext): readonly KeyValues[] {
  const results = keys.map((): Record<string, Measured> => ({}));
  const fill = (name: string, symbol: string, valuesOf: (key: ReducedKey) => readonly CycleValue[]): void => {
    const perKey = keys.map(valuesOf);
    const found = perKey.map((list) => list.flatMap(({ estimate }) => (estimate.found ? [estimate.value] : [])));
    const scatters = repeatability(found);
    perKey.forEach((list, i) => {
      results[i]![name] = keyValue(list, {
        path: `${keyPath(context.unit, context.session, keys[i]!.key)}/${name}`,
        symbol,
        scatter: scatters[i] ?? null,
        block: `${sessionPath(context)}/repeatability/${name}`,
      });
    });
  };
  for (const name of characteristicNames) {
    fill(name, characteristicSymbols[name], ({ used }) =>
      used.map((cycle) => ({
        estimate: cycle.estimates[name],
        evidence: cycle.reduction.characteristics[name].evidence,
      })),
    );
  }
  fill("prominence", "cN", ({ used }) =>
    used.map((cycle) => ({
      estimate: prominenceEstimate(cycle, context),
      evidence: cycle.reduction.evidence,
    })),
  );
  return results;
}

function prominenceEstimate(cycle: ReducedCycle, context: ReductionContext): Estimate {
  const { press, reduction } = cycle;
  if (press === null) return missing("the press shows no touch, so its bumps are not known");
  const { prominenceCn, uncertaintyCn } = press.bumps;
  const sources = strokeSources(sessionPath(context), reduction.key, reduction.cycle);
  const noise = sources.noise("prominence", "Prominence: noise of the readings", uncertaintyCn, "cN", Infinity);
  return { found: true, value: prominenceCn, terms: [term("noise", noise, 1)] };
}

function describeKey(reduced: ReducedKey, values: KeyValues, context: ReductionContext): KeyReduction {
  const { key, cycles, used } = reduced;
  const prominence = values["prominence"] as Measured<"cN">;
  const presses = used.flatMap((cycle) => (cycle.press === null ? [] : [cycle.press]));
  const chosen = presses[medoid(presses)];
  const left = cycles.filter((cycle) => !cycle.reduction.used);
  const note = left.map((cycle) => `cycle ${cycle.reduction.cycle} not used: ${cycle.reduction.reason}`).join("; ");
  const evidence = evidenceStep(
    `${used.length} used cycle${used.length === 1 ? "" : "s"} of ${key}`,
    used.map((cycle) => cycle.reduction.evidence),
    note === "" ? undefined : note,
  );
  return {
    ...buildCharacteristics((name) => values[name]!),
    key,
    curveKind: curveKind(presses.map((press) => press.bumps.bump !== null), prominence, context.method.prominence.value), // prettier-ignore
    prominence,
    cycles: cycles.map((cycle) => cycle.reduction),
    medianCycle: chosen?.stroke.cycle ?? used[0]?.reduction.cycle ?? cycles[0]?.reduction.cycle ?? 0,
    evidence,
  };
}

function pressOf(reduced: ReducedKey, cycle: number): PressCurve | null {
  return reduced.used.find((each) => each.reduction.cycle === cycle)?.press ?? null;
}
