import type { RigPlan } from "../simulation/archive-plan.js";
import type { Raw } from "../simulation/described.js";
import { describedRig } from "../simulation/described.js";
import { effectSizes } from "../simulation/effect-sizes.js";
import { cameraRaw, injectorRaw, lightRaw, secondTesterRaw, testerRaw } from "../simulation/lab-objects.js";
import { randomFor } from "../simulation/random.js";
import { cameraSeries, clockSeries, drawChecks, testerSeries } from "../simulation/rig-checks.js";
import { drawCameraErrors, drawTesterErrors } from "../simulation/rig-errors.js";
import { testerSetting } from "../simulation/tester.js";

/** The span of tester-2 rises on the first of these dates and is set right on the second. */
export const drift = {
  rig: "tester-2",
  from: "2026-04-21",
  until: "2026-05-12",
  spanRatio: effectSizes.spanRatio,
} as const;

/** Check standard of both testers: key F of u02, kept back for it. */
const standard = { unit: "u02", forceCn: 44.1, preTravelMm: 1.9412 };

/** The rigs with their errors drawn from their certificates, tester-2 with its drift on top. */
export function demoRigs(seed: number): readonly RigPlan[] {
  const checks = (id: string, series: Parameters<typeof drawChecks>[0], from: string): RigPlan["checks"] =>
    drawChecks(series, from, "2026-06-29", randomFor(seed, "checks", id));
  const one = drawTesterErrors(describedRig(testerRaw), randomFor(seed, "rig", "tester-1"));
  const two = drawTesterErrors(describedRig(secondTesterRaw), randomFor(seed, "rig", "tester-2"));
  const drifted = (date: string): boolean => date >= drift.from && date < drift.until;
  // The pre-travel's start differs between film and tester by far less than the frame's way that the budget allows.
  const halfWidths = { touchOffsetMm: 0.03, speedShare: 0.004 };
  const camera = (raw: Raw): NonNullable<RigPlan["camera"]> => ({
    errors: drawCameraErrors(describedRig(raw), halfWidths, randomFor(seed, "rig", String(raw["id"]))),
  });
  return [
    {
      raw: testerRaw,
      checks: checks("tester-1", testerSeries(standard), "2025-09-01"),
      tester: { errors: () => one, setting: testerSetting, forceColumn: "cN" },
    },
    {
      raw: secondTesterRaw,
      checks: checks(
        "tester-2",
        testerSeries(standard, (date) => (drifted(date) ? drift.spanRatio : 0)),
        "2025-09-01",
      ),
      tester: {
        // A reading that is too high by the drift is corrected by a smaller span than the certificate's.
        errors: (date) => (drifted(date) ? { ...two, forceSpan: two.forceSpan / (1 + drift.spanRatio) } : two),
        setting: { ...testerSetting, forceResolutionCn: 0.0980665, forceNoiseCn: 0.1 },
        forceColumn: "gf",
      },
    },
    { raw: cameraRaw, checks: checks("camera-1", cameraSeries(120), "2025-12-01"), camera: camera(cameraRaw) },
    { raw: injectorRaw, checks: checks("injector-1", clockSeries, "2026-01-12"), camera: camera(injectorRaw) },
    { raw: lightRaw, checks: checks("light-1", clockSeries, "2026-01-12"), camera: camera(lightRaw) },
  ];
}
