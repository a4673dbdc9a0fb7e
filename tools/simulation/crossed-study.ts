import type { StudyPlan, StudyRow } from "./archive-plan.js";
import { randomFor } from "./random.js";

/** True standard deviations of a characteristic's components in a crossed study; operators have fixed offsets. */
export interface CrossedComponents {
  readonly characteristic: string;
  readonly symbol: string;
  readonly decimals: number;
  /** True value of each unit's key. */
  readonly units: Readonly<Record<string, number>>;
  readonly operators: Readonly<Record<string, number>>;
  readonly daySd: number;
  readonly mountSd: number;
  readonly repeatSd: number;
}

export interface CrossedDesign {
  readonly key: string;
  readonly rig: string;
  readonly method: string;
  readonly days: number;
  /** Mountings within each combination of operator, unit and day. */
  readonly mounts: number;
  /** Readings at each mounting. */
  readonly repeats: number;
}

/** A study in which every operator mounts and measures every unit on every day, several times. */
export function crossedStudy(
  seed: number,
  design: CrossedDesign,
  characteristics: readonly CrossedComponents[],
): StudyPlan {
  const readings = characteristics.flatMap((c) => {
    const random = randomFor(seed, "crossed", c.characteristic);
    const days = Array.from({ length: design.days }, () => c.daySd * random.normal());
    const rows: StudyRow[] = [];
    days.forEach((dayOffset, day) => {
      for (const [operator, operatorOffset] of Object.entries(c.operators)) {
        for (const [unit, value] of Object.entries(c.units)) {
          for (let mount = 1; mount <= design.mounts; mount++) {
            const mountOffset = c.mountSd * random.normal();
            for (let repeat = 1; repeat <= design.repeats; repeat++) {
              rows.push({
                unit,
                key: design.key,
                operator,
                rig: design.rig,
                method: design.method,
                day: String(day + 1),
                mount: String(mount),
                repeat: String(repeat),
                characteristic: c.characteristic,
                value: value + dayOffset + operatorOffset + mountOffset + c.repeatSd * random.normal(),
                symbol: c.symbol,
                decimals: c.decimals,
              });
            }
          }
        }
      }
    });
    return rows;
  });
  return {
    raw: {
      id: "crossed-1",
      title: "Who measures, on which day, at which mounting",
      kind: "crossed",
      question:
        "How much of the scatter of actuation force and pre-travel comes from the unit, the operator, the day, " +
        "the mounting and the repeat? Mountings are numbered within operator, unit and day.",
      factors: ["operator", "unit", "day", "mount", "repeat"],
    },
    readings,
  };
}
