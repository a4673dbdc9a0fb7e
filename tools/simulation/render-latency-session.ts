import type { LatencyMethod } from "../../src/records/archive.js";
import type { FilmSessionPlan, RigPlan, TimingSessionPlan, UnitPlan } from "./archive-plan.js";
import type { FilmSetup } from "./film.js";
import { drawFilm } from "./film.js";
import { drawBaseline } from "./host-system.js";
import { keyCurve } from "./key-curve.js";
import type { LatencyTruth } from "./latency-truth.js";
import { latencyTruth } from "./latency-truth.js";
import { randomFor } from "./random.js";
import { renderCsv, shortNumber } from "./text.js";
import { drawTimings } from "./timings.js";
import { truthOf, usualDefinition } from "./truth.js";
import { shifted } from "./unit-truth.js";

/** Way from the tester's touch to the contact; film sees touch at nearly the same place. */
function wayToContact(unit: UnitPlan, session: FilmSessionPlan | TimingSessionPlan): number {
  const shape = shifted(unit.shapes.get(session.key)!, (session.kind === "film" ? session.shift : undefined) ?? {});
  return truthOf(keyCurve(shape), usualDefinition).values.preTravel!;
}

const number = (raw: Readonly<Record<string, unknown>>, name: string): number => {
  const value = raw[name];
  if (typeof value !== "number") throw new RangeError(`the session has no ${name}`);
  return value;
};

/** Texts of the raw files of a film session, and the truth of each connection (none for `draws` = 0). */
export function renderFilmSession(
  seed: number,
  unit: UnitPlan,
  session: FilmSessionPlan,
  rig: RigPlan,
  method: LatencyMethod,
  draws: number,
): {
  readonly files: Readonly<Record<string, string>>;
  readonly truth: Readonly<Record<string, LatencyTruth & { readonly key: string; readonly valid: number }>>;
} {
  const camera = rig.camera;
  if (camera === undefined) throw new RangeError(`rig ${String(rig.raw["id"])} is no camera rig`);
  const path = [String(unit.raw["id"]), String(session.raw["id"])] as const;
  const preTravelMm = wayToContact(unit, session);
  const connections = Object.keys(session.raw["connections"] as Readonly<Record<string, unknown>>);
  const setups = connections.map((connection): FilmSetup => {
    const chain = unit.chains[connection];
    if (chain === undefined) throw new RangeError(`unit ${path[0]} has no chain for ${connection}`);
    return {
      connection,
      key: session.key,
      preTravelMm,
      chain,
      host: session.host,
      errors: camera.errors,
      frameRateHz: method.frameRate.value,
      presses: method.presses,
      readers: session.readers,
      intervalMs: number(session.raw, "press_interval_ms"),
      intervalJitterMs: number(session.raw, "press_interval_jitter_ms"),
      marks: session.marks ?? false,
      outcomes: session.outcomes?.[connection] ?? {},
      excluded: session.excluded?.[connection] ?? {},
    };
  });
  const films = setups.map((s) =>
    drawFilm(s, `${path.join("-")}-${s.connection}`, randomFor(seed, "film", ...path, s.connection)),
  );
  const presses = films
    .flatMap((f) => f.presses)
    .map((p) => [
      p.connection,
      p.key,
      p.clip,
      p.press,
      p.reader,
      p.contactFrame,
      p.markFrame,
      p.responseFrame,
      p.outcome,
      p.excluded,
    ]);
  const baseline = drawBaseline(session.host, method.baselineShots, randomFor(seed, "baseline", ...path)).map((b) => [
    b.block,
    b.shot,
    ...[b.inputMs, b.pcMs, b.displayMs, b.totalMs].map((ms) => (ms === null ? null : shortNumber(ms, 2))),
    b.detector,
  ]);
  const truth =
    draws === 0
      ? []
      : setups.map((s): [string, LatencyTruth & { key: string; valid: number }] => {
          const lost = new Set([...Object.keys(s.outcomes ?? {}), ...Object.keys(s.excluded ?? {})]).size;
          const found = latencyTruth(s, method.kept, randomFor(seed, "truth", ...path, s.connection), draws);
          return [s.connection, { ...found, key: s.key, valid: s.presses - lost }];
        });
  return {
    files: {
      "presses.csv": renderCsv(
        "connection,key,clip,press,reader,contact_frame,mark_frame,response_frame,outcome,excluded",
        presses,
      ),
      "films.csv": renderCsv(
        "clip,file,sha256,frame_rate_hz,first_press,last_press",
        films.map(({ film: f }) => [f.clip, f.file, f.sha256, f.frameRateHz, f.firstPress, f.lastPress]),
      ),
      "baseline.csv": renderCsv("block,shot,input_ms,pc_ms,display_ms,total_ms,detector", baseline),
    },
    truth: Object.fromEntries(truth),
  };
}

/** Text of `timings.csv` of direct injection, or of a light that reports the arrival. */
export function renderTimingSession(
  seed: number,
  unit: UnitPlan,
  session: TimingSessionPlan,
  rig: RigPlan,
  method: LatencyMethod,
): string {
  const path = [String(unit.raw["id"]), String(session.raw["id"])] as const;
  const travelMs =
    session.plungerMmPerS === undefined ? 0 : (wayToContact(unit, session) / session.plungerMmPerS) * 1000;
  const connections = Object.keys(session.raw["connections"] as Readonly<Record<string, unknown>>);
  const rows = connections.flatMap((connection) =>
    drawTimings(
      {
        connection,
        chain: unit.chains[connection]!,
        presses: method.presses,
        intervalMs: number(session.raw, "press_interval_ms"),
        intervalJitterMs: number(session.raw, "press_interval_jitter_ms"),
        beforeMs: (random) => (travelMs === 0 ? 0 : travelMs * (1 + 0.004 * random.normal())),
        afterMs: (random) => session.afterMs[0] + session.afterMs[1] * random.normal(),
        clock: rig.camera?.errors.frameClock ?? 1,
      },
      randomFor(seed, "timings", ...path, connection),
    ),
  );
  return renderCsv(
    "connection,press,start_us,arrival_us,excluded",
    rows.map((t) => [t.connection, t.press, t.startUs, t.arrivalUs, t.excluded]),
  );
}
