import type { RigPlan } from "./archive-plan.js";
import { describedRig } from "./described.js";
import { cameraRaw, injectorRaw, lightRaw, testerRaw } from "./lab-objects.js";
import { plantedPlaces } from "./planted-effects.js";
import { randomFor } from "./random.js";
import { cameraSeries, clockSeries, drawChecks, testerSeries } from "./rig-checks.js";
import { drawCameraErrors, drawTesterErrors } from "./rig-errors.js";
import { testerSetting } from "./tester.js";

/** The rigs of a small archive, their errors drawn from their certificates; `spanRatio` is the planted drift, or 0. */
export function smallRigs(seed: number, spanRatio: number, stepMm: number): readonly RigPlan[] {
  const { from, until } = plantedPlaces.rig_drift;
  const bias = (date: string): number => (date >= from && date < until ? spanRatio : 0);
  const standard = { unit: "u01", forceCn: 44, preTravelMm: 1.95 };
  const errors = drawTesterErrors(describedRig(testerRaw), randomFor(seed, "rig", "tester-1"));
  const halfWidths = { touchOffsetMm: 0.03, speedShare: 0.004 };
  const random = randomFor(seed, "rig", "camera-1");
  return [
    {
      raw: testerRaw,
      checks: drawChecks(
        testerSeries(standard, bias),
        "2025-09-01",
        "2026-06-29",
        randomFor(seed, "checks", "tester-1"),
      ),
      tester: {
        errors: (date) => ({ ...errors, forceSpan: errors.forceSpan / (1 + bias(date)) }),
        setting: { ...testerSetting, stepMm },
        forceColumn: "cN",
      },
    },
    {
      raw: cameraRaw,
      checks: drawChecks(cameraSeries(120), "2025-12-01", "2026-06-29", randomFor(seed, "checks", "camera-1")),
      camera: { errors: drawCameraErrors(describedRig(cameraRaw), halfWidths, random) },
    },
    ...[injectorRaw, lightRaw].map((raw) => {
      const id = String(raw["id"]);
      return { raw, checks: drawChecks(clockSeries, "2026-01-12", "2026-06-29", randomFor(seed, "checks", id)) };
    }),
  ];
}
