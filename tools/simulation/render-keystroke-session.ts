import type { KeystrokeMethod } from "../../src/records/archive.js";
import type { Stroke } from "../../src/records/readings.js";
import type { KeystrokeSessionPlan, RigPlan, UnitPlan } from "./archive-plan.js";
import { drawCycle } from "./cycle-variation.js";
import { keyCurve } from "./key-curve.js";
import { keyTruth } from "./key-truth.js";
import { randomFor } from "./random.js";
import { drawGapMm, recordCycle } from "./tester.js";
import { shortNumber } from "./text.js";
import type { CurveTruth } from "./truth.js";
import { meanTruth } from "./truth.js";
import { shifted } from "./unit-truth.js";

/** Truths of a keystroke session: the unit as it was mounted then. */
export interface SessionTruth {
  readonly method: string;
  /** The measured keys. */
  readonly keys: Readonly<Record<string, CurveTruth>>;
  /** Mean over those, and over all alphabetic keys. */
  readonly meanOfMeasured: CurveTruth;
  readonly meanOfAll: CurveTruth;
}

const centinewtonsPerGramForce = 0.980665;

function renderStrokes(strokes: readonly Stroke[], column: "cN" | "gf"): string {
  const lines = [`key,cycle,stroke,displacement_mm,force_${column},contact`];
  const factor = column === "gf" ? centinewtonsPerGramForce : 1;
  for (const s of strokes) {
    const head = `${s.key},${s.cycle},${s.stroke},`;
    for (let i = 0; i < s.forceCn.length; i++) {
      const contact = s.contact ? s.contact[i]! : "";
      const force = shortNumber(s.forceCn[i]! / factor, 1);
      lines.push(`${head}${shortNumber(s.displacementMm[i]!, 3)},${force},${contact}`);
    }
  }
  return lines.join("\n") + "\n";
}

/** Text of `force.csv`, and the truths where asked for. */
export function renderKeystrokeSession(
  seed: number,
  unit: UnitPlan,
  session: KeystrokeSessionPlan,
  rig: RigPlan,
  method: KeystrokeMethod,
  withTruth: boolean,
): { readonly force: string; readonly truth: SessionTruth | null } {
  const tester = rig.tester;
  if (tester === undefined) throw new RangeError(`rig ${String(rig.raw["id"])} is no force tester`);
  const path = [String(unit.raw["id"]), String(session.raw["id"])] as const;
  const mount = randomFor(seed, "mount", ...path);
  const mounted = {
    forceCn: session.mountCn * mount.normal() + (session.shift?.forceCn ?? 0),
    makeMm: session.mountMm * mount.normal() + (session.shift?.makeMm ?? 0),
  };
  const shapes = new Map([...unit.shapes].map(([key, shape]) => [key, shifted(shape, mounted)]));
  const errors = tester.errors(String(session.raw["start"]).slice(0, 10));
  const delay = session.reportDelayMs;
  const strokes = method.keys.flatMap((key) => {
    const random = randomFor(seed, "strokes", ...path, key);
    const gapMm = drawGapMm(tester.setting, random);
    return Array.from({ length: method.cycles }, (_, i) => {
      const cycle = i + 1;
      const curve = keyCurve(drawCycle(shapes.get(key)!, cycle, session.cycles, random));
      const slips = session.slip?.key === key && session.slip.cycle === cycle;
      return recordCycle(curve, key, cycle, random, {
        errors,
        gapMm,
        setting: tester.setting,
        ...(delay ? { watch: { source: "report", delayMs: () => random.between(delay[0], delay[1]) } } : {}),
        ...(slips ? { slipAtMm: session.slip!.atMm } : {}),
      });
    }).flat();
  });
  const force = renderStrokes(strokes, tester.forceColumn);
  if (!withTruth) return { force, truth: null };
  const all = new Map(
    [...shapes].map(([key, shape]) => {
      const spoilt = session.slip?.key === key ? session.slip.cycle : null;
      const cyclesUsed = method.cyclesUsed.filter((cycle) => cycle !== spoilt);
      return [key, keyTruth(shape, { ...method, cyclesUsed }, session.cycles)];
    }),
  );
  const measured = method.keys.map((key) => [key, all.get(key)!] as const);
  return {
    force,
    truth: {
      method: method.id,
      keys: Object.fromEntries(measured),
      meanOfMeasured: meanTruth(measured.map(([, truth]) => truth)),
      meanOfAll: meanTruth([...all.values()]),
    },
  };
}
