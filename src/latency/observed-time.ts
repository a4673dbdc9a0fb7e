import { mean } from "d3-array";
import { evidenceStep } from "../metrology/evidence.js";
import { Quantity } from "../metrology/quantity.js";
import { divisorOf } from "../metrology/source.js";
import type { Component, Source } from "../metrology/source.js";
import { standardDeviation } from "./kept-mean.js";
import type { LockCheck } from "./model.js";
import type { ObservedPress } from "./observed-press.js";
import type { ReaderOffset } from "./reader-offset.js";
import { readerComponents } from "./reader-offset.js";
import type { RigTerm } from "./rig-term.js";

/** What the observed times of one connection share. */
export interface Observation {
  /** Prefix of ids of the connection: `session/u07/s2/connection/usb`. */
  readonly path: string;
  readonly offset: ReaderOffset;
  readonly clock: RigTerm | null;
  readonly locks: readonly LockCheck[];
  readonly film: boolean;
}

type TimedPress = ObservedPress & { readonly timeMs: number };

/**
 * Random uncertainty of a mean over n presses whose values are `values`: variance of one press max(s^2, Tf^2/6), divided
 * by n; where the camera's phase is locked or unknown, s^2/n, since Tf^2/6 then stands undivided among the locks
 * (measurement model, section 4).
 *
 * @param values latencies in ms, two or more; @param stepsMs frame time or timer step of each
 */
export function scatterSource(values: readonly number[], stepsMs: readonly number[], observation: Observation): Source {
  const s = standardDeviation(values);
  const floor = frameFloorMs(stepsMs, observation);
  const scatters = s >= floor;
  return {
    id: `${observation.path}/presses`,
    label: scatters ? "Scatter of presses" : resolutionLabel(observation),
    type: scatters ? "A" : "B",
    distribution: scatters ? "t" : "triangular",
    u: Math.max(s, floor) / Math.sqrt(values.length),
    symbol: "ms",
    dof: scatters ? values.length - 1 : Infinity,
  };
}

/** Tf / sqrt(6), root mean square over the presses: the least sd of one press; 0 where the camera's phase may be locked. */
export function frameFloorMs(stepsMs: readonly number[], observation: Observation): number {
  const camera = observation.locks.find(({ period }) => period === "camera_frame");
  if (camera !== undefined && camera.addedMs > 0) return 0;
  return Math.sqrt(mean(stepsMs, (step) => step * step)!) / divisorOf("triangular");
}

/**
 * Components that do not shrink with more presses: the reader's own offset, the clock, and one for every period of which
 * the phase is locked or unknown.
 */
export function commonComponents(presses: readonly TimedPress[], observation: Observation): readonly Component[] {
  const { path, offset, clock, locks } = observation;
  const locked = locks
    .filter(({ addedMs }) => addedMs > 0)
    .map(({ period, label, status, addedMs }): Component => {
      const source: Source = {
        id: `${path}/phase/${period}`,
        label: `Phase of the ${label} (${status === "locked" ? "locked" : "not known to be random"})`,
        type: "B",
        distribution: period === "camera_frame" ? "triangular" : "rectangular",
        u: addedMs,
        symbol: "ms",
        dof: Infinity,
      };
      return { source, contribution: addedMs };
    });
  const meanMs = mean(presses, (press) => press.timeMs)!;
  return [
    ...readerComponents(offset, presses, "response"),
    ...(clock === null ? [] : [{ source: clock.source, contribution: meanMs * clock.source.u }]),
    ...locked,
  ];
}

/** Mean observed time of the valid presses, contact to response, with its scatter and what all presses share. */
export function meanObservedTime(
  presses: readonly TimedPress[],
  scatter: Source,
  observation: Observation,
): Quantity<"ms"> {
  const value = mean(presses, (press) => press.timeMs)! * (observation.clock?.value ?? 1);
  const inputs = presses.map((press) => press.evidence);
  if (observation.clock !== null) inputs.push(observation.clock.evidence);
  return new Quantity(
    value,
    "ms",
    [{ source: scatter, contribution: scatter.u }, ...commonComponents(presses, observation)],
    evidenceStep(`mean observed time of ${presses.length} valid presses`, inputs),
  );
}

/** Observed time of one press: both ends known to within a frame (triangular, Tf/sqrt(6)), readers and clock. */
export function observedTime(press: TimedPress, observation: Observation): Quantity<"ms"> {
  const { path, offset, clock, film } = observation;
  const ends: Source = {
    id: `${path}/press/${press.clip}/${press.key}/${press.press}/ends`,
    label: resolutionLabel({ film }),
    type: "B",
    distribution: "triangular",
    u: press.stepMs / divisorOf("triangular"),
    symbol: "ms",
    dof: Infinity,
  };
  const components: Component[] = [
    { source: ends, contribution: ends.u },
    ...readerComponents(offset, [press], "response"),
  ];
  if (clock !== null) components.push({ source: clock.source, contribution: press.timeMs * clock.source.u });
  return new Quantity(press.timeMs * (clock?.value ?? 1), "ms", components, press.evidence);
}

function resolutionLabel({ film }: { readonly film: boolean }): string {
  return film ? "Frames of the film, both ends" : "Steps of the timer, both ends";
}
