import type { ArchivePlan, UnitPlan } from "../simulation/archive-plan.js";
import { candidatesStudy } from "../simulation/candidates-study.js";
import { crossedStudy } from "../simulation/crossed-study.js";
import { hostSystem } from "../simulation/host-system.js";
import { keyCurve } from "../simulation/key-curve.js";
import {
  flickMethodRaw,
  injectionMethodRaw,
  labRaw,
  lightMethodRaw,
  scoringOneRaw,
  scoringTwoRaw,
} from "../simulation/lab-description.js";
import { keystrokeMethodRaw, keystrokeOneRaw, latencyMethodRaw } from "../simulation/lab-objects.js";
import { readersStudy } from "../simulation/readers-study.js";
import { truthOf, usualDefinition } from "../simulation/truth.js";
import { planted } from "./planted.js";
import { demoRigs } from "./rigs.js";
import { demoUnitPlans, mounting, readerA, readerB } from "./units.js";

/** Units of the crossed study, and connections of the comparison of methods. */
const crossedUnits = ["u01", "u05", "u08", "u11", "u15"];
const comparedConnections = [
  ["u01", "usb"],
  ["u06", "receiver"],
  ["u10", "bluetooth"],
] as const;

function keyF(unit: UnitPlan): { readonly forceCn: number; readonly preTravelMm: number } {
  const { values } = truthOf(keyCurve(unit.shapes.get("KeyF")!), usualDefinition);
  return { forceCn: values.actuationForce!, preTravelMm: values.preTravel! };
}

/** Everything the demo archive is made from. Seed 1 is the one that ships; it was not chosen by its results. */
export function demoPlan(seed: number): ArchivePlan {
  const units = demoUnitPlans(seed);
  const rigs = demoRigs(seed);
  const unit = (id: string): UnitPlan => units.find((u) => u.raw["id"] === id)!;
  const trueValues = (pick: "forceCn" | "preTravelMm"): Readonly<Record<string, number>> =>
    Object.fromEntries(crossedUnits.map((id) => [id, keyF(unit(id))[pick]]));
  const crossed = crossedStudy(
    seed,
    { key: "KeyF", rig: "tester-1", method: "keystroke@2", days: 2, mounts: 3, repeats: 2 },
    [
      {
        characteristic: "actuation_force",
        symbol: "cN",
        decimals: 2,
        units: trueValues("forceCn"),
        operators: { "operator-1": 0, "operator-2": 0, "operator-3": planted.operator.forceCn },
        daySd: 0.08,
        mountSd: mounting.forceCn,
        repeatSd: 0.15,
      },
      {
        characteristic: "pre_travel",
        symbol: "mm",
        decimals: 4,
        units: trueValues("preTravelMm"),
        operators: { "operator-1": 0, "operator-2": 0, "operator-3": planted.operator.preTravelMm },
        daySd: 0.002,
        mountSd: mounting.makeMm,
        repeatSd: 0.003,
      },
    ],
  );
  const camera = rigs.find((rig) => rig.raw["id"] === "camera-1")!.camera!;
  const readers = readersStudy(
    seed,
    {
      connection: "receiver",
      key: "KeyF",
      preTravelMm: keyF(unit("u06")).preTravelMm,
      chain: unit("u06").chains["receiver"]!,
      host: hostSystem,
      errors: camera.errors,
      frameRateHz: 960,
      presses: 28,
      intervalMs: 1370,
      intervalJitterMs: 120,
    },
    [readerA, readerB],
    { unit: "u06", rig: "camera-1", method: "latency@1" },
  );
  const candidates = candidatesStudy(
    seed,
    [
      { method: "latency@1", rig: "camera-1", operator: "operator-1", addsMs: 0.15, gain: 1, sdMs: 0.45 },
      { method: "injection@1", rig: "injector-1", operator: "operator-1", addsMs: 0.35, gain: 1, sdMs: 0.06 },
      { method: "light@1", rig: "light-1", operator: "operator-1", addsMs: 0.43, gain: 1, sdMs: 0.25 },
      { method: "flick@1", rig: "camera-1", operator: "operator-1", addsMs: 6.5, gain: 1, sdMs: 1.6 },
    ],
    [5, 10, 20, 40],
    comparedConnections.map(([id, connection]) => ({ unit: id, connection, chain: unit(id).chains[connection]! })),
    6,
  );
  return {
    seed,
    lab: labRaw,
    methods: {
      "flick-1": flickMethodRaw,
      "injection-1": injectionMethodRaw,
      "keystroke-1": keystrokeOneRaw,
      "keystroke-2": keystrokeMethodRaw,
      "latency-1": latencyMethodRaw,
      "light-1": lightMethodRaw,
      "scoring-1": scoringOneRaw,
      "scoring-2": scoringTwoRaw,
    },
    rigs,
    units,
    studies: [candidates, crossed, readers],
  };
}
