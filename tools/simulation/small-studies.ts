import type { ArchivePlan, RigPlan, UnitPlan } from "./archive-plan.js";
import { candidatesStudy } from "./candidates-study.js";
import { chains } from "./chains.js";
import { crossedStudy } from "./crossed-study.js";
import type { Reader } from "./film.js";
import { hostSystem } from "./host-system.js";
import { keyCurve } from "./key-curve.js";
import { readersStudy } from "./readers-study.js";
import { truthOf, usualDefinition } from "./truth.js";

/** Presses that both readers read: as many as the stated offset of a reader asks for (see `effectSizes`). */
const pressesReadTwice = 140;

/** The three studies of a small archive. */
export function smallStudies(
  seed: number,
  units: readonly UnitPlan[],
  rigs: readonly RigPlan[],
  offsets: { readonly operatorCn: number; readonly operatorMm: number; readonly readerFrames: number },
): ArchivePlan["studies"] {
  const five = units.slice(0, 5);
  const keyF = five.map((unit) => truthOf(keyCurve(unit.shapes.get("KeyF")!), usualDefinition).values);
  const byUnit = (pick: (i: number) => number): Readonly<Record<string, number>> =>
    Object.fromEntries(five.map((unit, i) => [String(unit.raw["id"]), pick(i)]));
  const operators = (third: number): Readonly<Record<string, number>> => ({
    "operator-1": 0,
    "operator-2": 0,
    "operator-3": third,
  });
  const reader = (name: string, responseOffset: number): Reader => ({
    name,
    contactOffset: 0,
    responseOffset,
    slipShare: 0.06,
  });
  const shared = { rig: "tester-1", method: "keystroke@2" } as const;
  return [
    candidatesStudy(
      seed,
      [
        { method: "latency@1", rig: "camera-1", operator: "operator-1", addsMs: 0, gain: 1, sdMs: 0.45 },
        { method: "injection@1", rig: "injector-1", operator: "operator-1", addsMs: 0.35, gain: 1, sdMs: 0.06 },
        { method: "light@1", rig: "light-1", operator: "operator-1", addsMs: 0.43, gain: 1, sdMs: 0.25 },
        { method: "flick@1", rig: "camera-1", operator: "operator-1", addsMs: 6.5, gain: 1, sdMs: 1.6 },
      ],
      [5, 10, 20, 40],
      [{ unit: "u01", connection: "usb", chain: chains.usb }],
      6,
    ),
    crossedStudy(seed, { ...shared, key: "KeyF", days: 2, mounts: 3, repeats: 2 }, [
      {
        characteristic: "actuation_force",
        symbol: "cN",
        decimals: 2,
        units: byUnit((i) => keyF[i]!.actuationForce!),
        operators: operators(offsets.operatorCn),
        daySd: 0,
        mountSd: 0.12,
        repeatSd: 0.15,
      },
      {
        characteristic: "pre_travel",
        symbol: "mm",
        decimals: 4,
        units: byUnit((i) => keyF[i]!.preTravel!),
        operators: operators(offsets.operatorMm),
        daySd: 0,
        mountSd: 0.0025,
        repeatSd: 0.003,
      },
    ]),
    readersStudy(
      seed,
      {
        connection: "usb",
        key: "KeyF",
        preTravelMm: keyF[0]!.preTravel!,
        chain: chains.usb,
        host: hostSystem,
        errors: rigs[1]!.camera!.errors,
        frameRateHz: 960,
        presses: pressesReadTwice,
        intervalMs: 1370,
        intervalJitterMs: 120,
      },
      [reader("reader-a", 0), reader("reader-b", offsets.readerFrames)],
      { unit: "u01", rig: "camera-1", method: "latency@1" },
    ),
  ];
}
