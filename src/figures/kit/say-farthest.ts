import { median } from "d3-array";
import type { Reading } from "./entries.js";
import { commonPlaces, counted, joinWords, pluralOf, sayNumber, sayQuantity, sayValue } from "./words.js";

/**
 * Which reading lies furthest from the median of all (as many equal ones as print alike), as a clause that describes the
 * values shown and claims no difference beyond their uncertainty. One reading is quoted, two are compared.
 */
export function sayFarthest(readings: readonly Reading[], noun: string): string {
  const [first, second] = readings;
  if (first === undefined) return "";
  if (second === undefined) return `${first.label}: ${sayQuantity(first.measured)}, the only ${noun}`;
  const symbol = first.measured.symbol;
  const places = commonPlaces(readings.map((reading) => reading.measured));
  const say = (value: number): string => sayNumber(value, symbol, places);
  const values = readings.map((reading) => reading.measured.value);
  if (readings.every((reading) => say(reading.measured.value) === say(values[0]!))) {
    return `${readings.length === 2 ? `Both ${pluralOf(noun)}` : `All ${counted(readings.length, noun)}`} read ${say(values[0]!)}`;
  }
  if (readings.length === 2) {
    const apart = say(Math.abs(first.measured.value - second.measured.value));
    return `${first.label} reads ${sayValue(first.measured)} and ${second.label} ${sayValue(second.measured)}, ${apart} apart`;
  }
  const middle = median(values)!;
  const distance = (reading: Reading): string => say(Math.abs(reading.measured.value - middle));
  const most = [...readings].sort(
    (a, b) => Math.abs(b.measured.value - middle) - Math.abs(a.measured.value - middle) || a.index - b.index,
  )[0]!;
  const ties = readings.filter((reading) => distance(reading) === distance(most));
  const center = `the median of the ${counted(readings.length, noun)}, ${say(middle)}`;
  if (ties.length > 1) {
    return `${joinWords(ties.map((tie) => `${tie.label} (${sayValue(tie.measured)})`))} lie furthest from ${center}`;
  }
  const side = most.measured.value > middle ? "above" : "below";
  return `${most.label} reads ${sayValue(most.measured)}, ${distance(most)} ${side} ${center}`;
}
