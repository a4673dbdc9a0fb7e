import type { ArchivePlan, SessionPlan, UnitPlan } from "./archive-plan.js";
import { addDays } from "./calendar.js";
import type { ChainName } from "./chains.js";
import { chains } from "./chains.js";
import { cycleVariation } from "./cycle-variation.js";
import type { Raw } from "./described.js";
import { effectSizes } from "./effect-sizes.js";
import { hostSystem } from "./host-system.js";
import type { BaseShapeName } from "./key-shape.js";
import { baseShapes } from "./key-shape.js";
import {
  flickMethodRaw,
  injectionMethodRaw,
  labRaw,
  lightMethodRaw,
  scoringOneRaw,
  scoringTwoRaw,
} from "./lab-description.js";
import { keystrokeMethodRaw, keystrokeOneRaw, latencyMethodRaw } from "./lab-objects.js";
import type { PlantedEffect } from "./planted-effects.js";
import { plantedPlaces } from "./planted-effects.js";
import { randomFor } from "./random.js";
import type { RenderedArchive } from "./render-archive.js";
import { renderArchive } from "./render-archive.js";
import { filmSessionRaw, keystrokeSessionRaw } from "./session-descriptions.js";
import { smallRigs } from "./small-rigs.js";
import { smallStudies } from "./small-studies.js";
import { drawUnit } from "./unit-truth.js";

export interface SimulateArchiveOptions {
  /** Default: nothing. */
  readonly planted?: readonly PlantedEffect[];
  /** Other sizes than the stated ones. */
  readonly sizes?: Partial<typeof effectSizes>;
  /** Units measured by both keystroke methods and on film; 2 to 12, default 6. One more is held back, one withdrawn. */
  readonly retested?: number;
  /** Way between two readings; default 0.02 mm, twice the demo's, for smaller files. */
  readonly stepMm?: number;
  readonly truths?: boolean;
}

const kinds: readonly (readonly [BaseShapeName, ChainName])[] = [
  ["linearFull", "usb"],
  ["tactileFull", "receiver"],
  ["linearFull", "usb"],
  ["clickyFull", "bluetooth"],
  ["tactileLow", "usb"],
  ["linearLow", "receiver"],
];

const settings: Readonly<Record<ChainName, Raw>> = {
  usb: { polling_set: "1000 Hz", polling_measured_Hz: 999.8, debounce: "not adjustable", adapter: "none" },
  receiver: { polling_set: "not adjustable", debounce: "not adjustable", adapter: "the unit's own receiver" },
  bluetooth: { polling_set: "not adjustable", debounce: "not adjustable", adapter: "built-in radio" },
};

/** The plan behind `simulateArchive`. */
export function smallArchivePlan(seed: number, options: SimulateArchiveOptions = {}): ArchivePlan {
  const planted = new Set(options.planted ?? []);
  const sizes = { ...effectSizes, ...options.sizes };
  const retested = options.retested ?? 6;
  if (!(retested >= 2 && retested <= 12)) throw new RangeError(`retested is ${retested}; it must be from 2 to 12`);
  const cycles = { ...cycleVariation, firstCycleCn: planted.has("first_cycle") ? sizes.firstCycleCn : 0 };

  const unitPlan = (index: number): UnitPlan => {
    const id = `u${String(index + 1).padStart(2, "0")}`;
    const [shape, connection] = kinds[index % kinds.length]!;
    const full = index < retested;
    const day = addDays("2025-09-08", 3 * index);
    const head = { unit: id, rig: "tester-1", firmware: "1.0" } as const;
    const mount = { mountCn: 0.12, mountMm: 0.0025, cycles } as const;
    const moved = {
      ...(planted.has("moved_force") && id === plantedPlaces.moved_force.unit ? { forceCn: sizes.movedForceCn } : {}),
      ...(planted.has("moved_pre_travel") && id === plantedPlaces.moved_pre_travel.unit
        ? { makeMm: sizes.movedPreTravelMm }
        : {}),
    };
    const keystroke = (sid: string, date: string, method: "keystroke@1" | "keystroke@2"): SessionPlan => ({
      kind: "keystroke",
      raw: keystrokeSessionRaw(seed, { ...head, id: sid, date, method, contactSource: "electrical" }),
      ...mount,
      ...(method === "keystroke@2" ? { shift: moved } : {}),
    });
    const film = (): SessionPlan => ({
      kind: "film",
      raw: filmSessionRaw(seed, {
        ...head,
        rig: "camera-1",
        id: "s3",
        date: addDays("2026-04-14", 2 * index),
        settings: { [connection]: settings[connection] },
      }),
      key: "KeyF",
      host: hostSystem,
      readers: [{ name: "reader-a", contactOffset: 0, responseOffset: 0, slipShare: 0.05 }],
      shift: moved,
    });
    const bottomRowCn =
      (planted.has("position_effect") ? sizes.positionCn : 0) +
      (planted.has("unit_position_effect") && id === plantedPlaces.unit_position_effect.unit
        ? sizes.unitPositionCn
        : 0);
    const odd = planted.has("outlier_key") && id === plantedPlaces.outlier_key.unit;
    return {
      raw: {
        id,
        maker: "Quorrelby",
        model: `Trial ${shape}`,
        sample_no: String(Math.floor(index / kinds.length) + 1),
        received: "2025-09-01",
        obtained: "Generated",
        condition: "New, sealed",
        status: index === retested + 1 ? "withdrawn" : "held",
        status_note: index === retested + 1 ? "Withdrawn before the change of method." : "",
        layout: "ansi",
        alphabetic_keys: 26,
        switch: {
          kind: shape.startsWith("linear") ? "linear" : shape.startsWith("clicky") ? "clicky" : "tactile",
          name: "trial",
          travel: shape.endsWith("Low") ? "low" : "full",
          actuation_setting: "not adjustable",
        },
        limits: [],
        connections: [connection],
      },
      shapes: drawUnit(
        baseShapes[shape],
        {
          position: { rowCn: { D: 0, C: 0, B: bottomRowCn }, columnCn: 0, rightHandCn: 0 },
          ...(odd ? { odd: { [plantedPlaces.outlier_key.key]: { forceCn: sizes.outlierKeyCn } } } : {}),
        },
        randomFor(seed, "unit", id),
      ),
      chains: { [connection]: chains[connection] },
      sessions: [
        keystroke("s1", day, "keystroke@1"),
        ...(full ? [keystroke("s2", addDays("2026-03-09", 2 * index), "keystroke@2"), film()] : []),
      ],
    };
  };
  const units = Array.from({ length: retested + 2 }, (_, i) => unitPlan(i));
  const rigs = smallRigs(seed, planted.has("rig_drift") ? sizes.spanRatio : 0, options.stepMm ?? 0.02);
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
    studies: smallStudies(seed, units, rigs, {
      operatorCn: planted.has("operator_offset") ? sizes.operatorCn : 0,
      operatorMm: planted.has("operator_offset") ? sizes.operatorMm : 0,
      readerFrames: planted.has("reader_offset") ? sizes.readerFrames : 0,
    }),
  };
}

/**
 * A small archive with everything that the reports ask for: units measured by both keystroke methods and on film, one held
 * back, one withdrawn, rigs with checks, three studies. Without planted effects nothing in it differs but by the stated
 * scatter, so that any claim about it is a false one; with one, that effect has its stated size.
 */
export function simulateArchive(seed: number, options: SimulateArchiveOptions = {}): RenderedArchive {
  return renderArchive(smallArchivePlan(seed, options), { truths: options.truths ?? false, truthDraws: 20_000 });
}
