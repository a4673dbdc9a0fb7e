import { mean } from "d3-array";
import type { AgreementCounts, ReaderAgreement } from "./model.js";
import type { FrameReading, ObservedPress } from "./observed-press.js";
import type { ReaderOffset } from "./reader-offset.js";
import { commonReadings } from "./reader-offset.js";

/**
 * How two or more readers of one film agree: counts of presses whose readings are equal, within one frame, or beyond,
 * at either end and for the interval; and each reader's mean interval against the mean of all.
 *
 * @returns null where no press has two readings
 */
export function readerAgreement(presses: readonly ObservedPress[], offset: ReaderOffset): ReaderAgreement | null {
  const shared = presses.filter(
    (press) => press.fault === null && new Set(press.readings.map((reading) => reading.reader)).size >= 2,
  );
  if (shared.length === 0) return null;
  const count = (read: (reading: FrameReading) => number): AgreementCounts => {
    const counts = { equal: 0, withinOne: 0, beyond: 0 };
    for (const press of shared) {
      const values = press.readings.map(read);
      const spread = Math.max(...values) - Math.min(...values);
      counts[spread === 0 ? "equal" : spread <= 1 ? "withinOne" : "beyond"]++;
    }
    return counts;
  };
  const { readers, table } = commonReadings(shared);
  const readerMeans = readers.map((_, r) => mean(table, (row) => row[r]!));
  const grand = mean(readerMeans.filter((value) => value !== undefined));
  return {
    readers,
    presses: shared.length,
    contact: count((reading) => reading.contactFrame),
    response: count((reading) => reading.responseFrame),
    interval: count((reading) => reading.responseFrame - reading.contactFrame),
    offsetsFrames: readers.flatMap((reader, r) => {
      const readerMean = readerMeans[r];
      return readerMean === undefined || grand === undefined ? [] : [{ reader, offsetFrames: readerMean - grand }];
    }),
    basis: offset.basis,
  };
}
