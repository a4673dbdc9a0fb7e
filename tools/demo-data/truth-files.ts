import { format } from "prettier";
import type { ArchivePlan } from "../simulation/archive-plan.js";
import type { ArchiveTruth } from "../simulation/render-archive.js";
import type { CurveTruth } from "../simulation/truth.js";
import { plantedList } from "./planted.js";

const digits = (value: number | null): number | null => (value === null ? null : Number(value.toFixed(5)));
const shortened = (truth: CurveTruth): object => ({
  values: Object.fromEntries(Object.entries(truth.values).map(([name, value]) => [name, digits(value)])),
  slopes: Object.fromEntries(Object.entries(truth.slopes).map(([name, value]) => [name, digits(value)])),
});
const rounded = (record: object): object =>
  Object.fromEntries(
    Object.entries(record).map(([name, value]: [string, unknown]) => [
      name,
      typeof value === "number" ? Number(value.toPrecision(7)) : value,
    ]),
  );

const asJson = (value: unknown): Promise<string> => format(JSON.stringify(value), { parser: "json", printWidth: 120 });

/** Text of `tests/truth/demo.json`: the truths that the reductions of the demo archive must recover. */
export function renderTruth(plan: ArchivePlan, truth: ArchiveTruth): Promise<string> {
  const keystroke = Object.entries(truth.keystroke).map(([session, t]): [string, object] => {
    const keys = Object.fromEntries(Object.entries(t.keys).map(([key, k]) => [key, shortened(k)]));
    return [
      session,
      { method: t.method, meanOfMeasured: shortened(t.meanOfMeasured), meanOfAll: shortened(t.meanOfAll), keys },
    ];
  });
  const rigs = plan.rigs.flatMap((rig): [string, object][] => {
    const id = String(rig.raw["id"]);
    if (rig.camera) return [[id, rounded(rig.camera.errors)]];
    return rig.tester ? [[id, rounded(rig.tester.errors("2025-10-01"))]] : [];
  });
  return asJson({
    seed: plan.seed,
    about:
      "Truths of the demo archive. Keystroke: the method's definitions applied to the noise-free curve of each key as it " +
      "was mounted in that session, mean of the used cycles; slopes are |dF/ds| in cN/mm at the point of each force. " +
      "Units of measure: mm, cN, cN/mm, mJ, 1. Latency: L, L_k, median, P90 and the standard deviation of one press in " +
      "ms; presses and kept by the method, valid as recorded. Rigs: what a reading must be corrected by (tester-2 " +
      "outside its drift).",
    rigs: Object.fromEntries(rigs),
    keystroke: Object.fromEntries(keystroke),
    latency: Object.fromEntries(Object.entries(truth.latency).map(([name, t]) => [name, rounded(t)])),
  });
}

/** Text of `tests/truth/planted.json`. */
export function renderPlanted(): Promise<string> {
  return asJson(plantedList);
}
