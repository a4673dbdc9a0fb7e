import { mean } from "d3-array";
import { divisorOf } from "../metrology/source.js";
import type { Component, Source } from "../metrology/source.js";
import type { LatencyContext } from "./context.js";
import { sessionPath } from "./context.js";
import type { ObservedPress } from "./observed-press.js";
import { compareText } from "./observed-press.js";
import { standardDeviation } from "./kept-mean.js";

/** Presses that two or more readers must share before their offset is estimated from them. */
const leastCommonPresses = 5;

/** How far one reader's own way of reading an interval moves it, and what that rests on. */
export interface ReaderOffset {
  /** sd of one reader's offset among readers, in frames, with its dof; null: the default of ±0.5 frame per end. */
  readonly estimate: { readonly sdFrames: number; readonly dof: number; readonly type: "A" | "B" } | null;
  readonly path: string;
  readonly basis: string;
}

/**
 * The reader's own offset, common to all presses of a session and so never divided by their number: from a study of
 * readers where the context has one; else from the session's own film where the same readers read five presses or more;
 * else ±0.5 frame, rectangular, at either end (measurement model, section 4).
 *
 * From R readers: the sd of their mean intervals over presses that all of them read, R - 1 degrees of freedom, and at
 * least the standard error that their disagreement leaves in such a mean.
 */
export function readerOffset(presses: readonly ObservedPress[], context: LatencyContext): ReaderOffset {
  const path = sessionPath(context);
  const study = context.readerOffset;
  if (study !== undefined) {
    if (!(study.sdFrames >= 0) || !(study.dof > 0)) {
      throw new RangeError(`the study ${study.id} gives a reader offset of ${study.sdFrames} frames, dof ${study.dof}`);
    }
    return {
      estimate: { sdFrames: study.sdFrames, dof: study.dof, type: "A" },
      path,
      basis: `the study ${study.id} gives the sd of one reader's offset as ${round(study.sdFrames)} frames`,
    };
  }
  const { readers, table } = commonReadings(presses);
  if (readers.length < 2) {
    return { estimate: null, path, basis: "one reader: ±0.5 frame, rectangular, at either end" };
  }
  if (table.length < leastCommonPresses) {
    const basis =
      `${readers.length} readers share ${table.length} presses, fewer than ${leastCommonPresses}: ` +
      "±0.5 frame, rectangular, at either end of each reader";
    return { estimate: null, path, basis };
  }
  const readerMeans = readers.map((_, r) => mean(table, (row) => row[r]!)!);
  const betweenReaders = standardDeviation(readerMeans);
  const grand = mean(readerMeans)!;
  let residual = 0;
  for (const row of table) {
    const pressMean = mean(row)!;
    row.forEach((value, r) => (residual += (value - pressMean - readerMeans[r]! + grand) ** 2));
  }
  const standardError = Math.sqrt(residual / ((readers.length - 1) * (table.length - 1)) / table.length);
  const sdFrames = Math.max(betweenReaders, standardError);
  return {
    estimate: { sdFrames, dof: readers.length - 1, type: "A" },
    path,
    basis:
      `sd ${round(sdFrames)} frames between the mean intervals of ${readers.length} readers ` +
      `over ${table.length} presses that all of them read`,
  };
}

/** Intervals in frames of presses that every reader of the session read once or more: rows presses, columns readers. */
export function commonReadings(presses: readonly ObservedPress[]): {
  readonly readers: readonly string[];
  readonly table: readonly (readonly number[])[];
} {
  const usable = presses.filter((press) => press.fault === null);
  const readers = [...new Set(usable.flatMap((press) => press.readings.map((r) => r.reader)))].sort(compareText);
  const table = usable.flatMap((press) => {
    const row = readers.map((reader) =>
      mean(
        press.readings.filter((reading) => reading.reader === reader),
        (reading) => reading.responseFrame - reading.contactFrame,
      ),
    );
    return row.every((value) => value !== undefined) ? [row as number[]] : [];
  });
  return { readers, table };
}

/**
 * Components of the readers' own offset in a mean interval from contact to `end` over some presses. Each press's reading
 * is the mean of its readers, so a reader's offset weighs by its share of the readings.
 *
 * @param presses the presses whose intervals were averaged; presses without readings (timings) add nothing
 */
export function readerComponents(
  offset: ReaderOffset,
  presses: readonly ObservedPress[],
  end: "response" | "mark",
): readonly Component[] {
  const weights = readerWeightsMs(presses, end);
  if (weights.length === 0) return [];
  const { estimate, path } = offset;
  if (estimate !== null) {
    const source: Source = {
      id: `${path}/readers/${end}`,
      label: end === "response" ? "Readers' own offset" : "Readers' own offset at the plunger's mark",
      type: estimate.type,
      distribution: "t",
      u: estimate.sdFrames,
      symbol: "frame",
      dof: estimate.dof,
    };
    return [{ source, contribution: estimate.sdFrames * Math.hypot(...weights.map((w) => w.weightMs)) }];
  }
  return weights.flatMap(({ reader, weightMs }) => [
    defaultEnd(path, reader, end, weightMs),
    defaultEnd(path, reader, "contact", -weightMs),
  ]);
}

function defaultEnd(path: string, reader: string, end: "response" | "mark" | "contact", weightMs: number): Component {
  const u = 0.5 / divisorOf("rectangular");
  const source: Source = {
    id: `${path}/reader/${reader}/${end}`,
    label: `Reader's own offset at ${end === "mark" ? "the plunger's mark" : end}`,
    type: "B",
    distribution: "rectangular",
    u,
    symbol: "frame",
    dof: Infinity,
  };
  return { source, contribution: weightMs * u };
}

/** Milliseconds by which the mean moves where one reader reads one frame late throughout. */
function readerWeightsMs(
  presses: readonly ObservedPress[],
  end: "response" | "mark",
): readonly { readonly reader: string; readonly weightMs: number }[] {
  const weights = new Map<string, number>();
  for (const press of presses) {
    const readings = end === "mark" ? press.readings.filter((r) => r.markFrame !== null) : press.readings;
    for (const { reader } of readings) {
      const share = press.stepMs / readings.length / presses.length;
      weights.set(reader, (weights.get(reader) ?? 0) + share);
    }
  }
  return [...weights].sort(([a], [b]) => compareText(a, b)).map(([reader, weightMs]) => ({ reader, weightMs }));
}

function round(value: number): string {
  return value.toFixed(2);
}
