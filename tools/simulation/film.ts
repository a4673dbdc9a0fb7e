import type { Film, PressReading } from "../../src/records/readings.js";
import { createHash } from "node:crypto";
import type { HostSystem } from "./host-system.js";
import { drawDisplayMs, drawPcMs } from "./host-system.js";
import type { KeyboardChain } from "./keyboard-chain.js";
import { drawChainMs } from "./keyboard-chain.js";
import type { Random } from "./random.js";
import { simulatedRows } from "./tester.js";

/** What is really wrong with a camera rig on the day; what the method subtracts is right but for these. */
export interface CameraErrors {
  /** True frame rate / nominal. */
  readonly frameClock: number;
  /** Mean speed of the plunger over the pre-travel, under load. */
  readonly plungerMmPerS: number;
  /** Share of the travel time that acceleration adds. */
  readonly acceleration: number;
  /** The film sees the response later than the baseline's detector. */
  readonly detectorMs: number;
  /** The keyboard's path into the computer is longer than the baseline device's. */
  readonly inputPathMs: number;
  /** Way of the plunger from contact seen on film to the force tester's touch. */
  readonly touchOffsetMm: number;
  /** Share by which the way to the contact is longer at the plunger's speed than at the tester's. */
  readonly speedShare: number;
}

/** A reader's habit: mean offset of each end in frames, and how often a reading is one frame early or late. */
export interface Reader {
  readonly name: string;
  readonly contactOffset: number;
  readonly responseOffset: number;
  readonly slipShare: number;
}

export interface FilmSetup {
  readonly connection: string;
  readonly key: string;
  /** Way from the tester's touch to the contact of the key that is pressed. */
  readonly preTravelMm: number;
  readonly chain: KeyboardChain;
  readonly host: HostSystem;
  readonly errors: CameraErrors;
  readonly frameRateHz: number;
  readonly presses: number;
  readonly readers: readonly Reader[];
  readonly intervalMs: number;
  /** Standard deviation that is added to the interval on purpose. */
  readonly intervalJitterMs: number;
  /** Whether the mark on the plunger was read. */
  readonly marks?: boolean;
  /** Press number -> what became of it. */
  readonly outcomes?: Readonly<Record<number, "missed" | "double" | "unreadable">>;
  readonly excluded?: Readonly<Record<number, string>>;
  /** Adds a tail to the chain on purpose: mean of an exponential, ms. */
  readonly tailMs?: number;
}

/** Standard deviation of the plunger's speed between presses, as a share. */
const speedSpread = 0.004;
/** The same for the position at which the key's contact closes, in mm. */
const makeSpreadMm = 0.004;

/** One press: times after the plunger is seen to touch, in ms, and what the film would show with perfect frames. */
export function drawPressMs(
  setup: FilmSetup,
  random: Random,
): { readonly travelMs: number; readonly responseMs: number } {
  const e = setup.errors;
  const way = setup.preTravelMm * (1 + e.speedShare) + e.touchOffsetMm + makeSpreadMm * random.normal();
  const speed = e.plungerMmPerS * (1 + speedSpread * random.normal());
  const travelMs = Math.max(0, (way / speed) * 1000 * (1 + e.acceleration));
  const tail = setup.tailMs === undefined ? 0 : random.exponential(setup.tailMs) - setup.tailMs;
  const responseMs =
    travelMs +
    drawChainMs(setup.chain, random) +
    tail +
    e.inputPathMs +
    drawPcMs(setup.host, random) +
    drawDisplayMs(setup.host, random) +
    e.detectorMs;
  return { travelMs, responseMs };
}

/** First frame that shows an event, as one reader sees it. */
function frameOf(timeMs: number, frameMs: number, phase: number, offset: number, slip: number): number {
  return Math.ceil(timeMs / frameMs - phase + offset) + slip;
}

/** A film of presses of one key over one connection, read by one or more readers. */
export function drawFilm(
  setup: FilmSetup,
  clip: string,
  random: Random,
): { readonly presses: readonly PressReading[]; readonly film: Film } {
  const frameMs = 1000 / (setup.frameRateHz * setup.errors.frameClock);
  const phase = random.uniform();
  const presses: PressReading[] = [];
  let atMs = random.between(300, 900);
  for (let press = 1; press <= setup.presses; press++) {
    const { travelMs, responseMs } = drawPressMs(setup, random);
    const outcome = setup.outcomes?.[press] ?? "ok";
    for (const reader of setup.readers) {
      const slip = (): number => (random.chance(reader.slipShare) ? (random.chance(0.5) ? 1 : -1) : 0);
      const contact = frameOf(atMs, frameMs, phase, reader.contactOffset, slip());
      const response = frameOf(atMs + responseMs, frameMs, phase, reader.responseOffset, slip());
      const mark = frameOf(atMs + travelMs, frameMs, phase, reader.contactOffset, slip());
      presses.push({
        connection: setup.connection,
        key: setup.key,
        clip,
        press,
        reader: reader.name,
        contactFrame: outcome === "unreadable" ? null : contact,
        markFrame: setup.marks && outcome !== "unreadable" ? mark : null,
        responseFrame: outcome === "missed" || outcome === "unreadable" ? null : response,
        outcome,
        excluded: setup.excluded?.[press] ?? "",
        evidence: simulatedRows,
      });
    }
    atMs += setup.intervalMs + random.rectangular(setup.intervalJitterMs);
  }
  const film: Film = {
    clip,
    file: `${clip}.mov`,
    sha256: createHash("sha256").update(`no such film: ${clip}`).digest("hex"),
    frameRateHz: setup.frameRateHz,
    firstPress: 1,
    lastPress: setup.presses,
    evidence: simulatedRows,
  };
  return { presses, film };
}
