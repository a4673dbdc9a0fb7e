import type { ProblemCollector } from "./problem-collector.js";
import type { SourceText } from "./source-text.js";
import { placeOf } from "./source-text.js";

/** Start and end offset of one field in the text; quotes included. */
export type FieldRange = readonly [start: number, end: number];

/**
 * The ranges of the fields of the record that starts at `offset`, by RFC 4180's grammar: a field that starts with a quote
 * runs to the closing quote, doubled quotes and line ends inside it belong to it. An unclosed quote runs to the end.
 *
 * @param delimiter what stands between fields; default a comma
 */
export function fieldRanges(text: string, offset: number, delimiter = ","): readonly FieldRange[] {
  const ranges: FieldRange[] = [];
  let start = offset;
  let at = offset;
  for (;;) {
    if (at === start && text[at] === '"') at = closingQuote(text, at) + 1;
    const isDelimiter = text.startsWith(delimiter, at);
    if (at >= text.length || isDelimiter || text[at] === "\n") {
      ranges.push([start, Math.min(at, text.length)]);
      if (!isDelimiter) return ranges;
      at = start = at + delimiter.length;
    } else {
      at += 1;
    }
  }
}

/** Offset of the quote that closes the one at `opening`; the text's length where none does. */
function closingQuote(text: string, opening: number): number {
  for (let at = text.indexOf('"', opening + 1); at !== -1; at = text.indexOf('"', at + 2)) {
    if (text[at + 1] !== '"') return at;
  }
  return text.length;
}

/**
 * Reports quotes where RFC 4180 allows none, and a quote that is never closed, at its opening.
 *
 * @param delimiter what stands between fields; default a comma
 * @param from offset of the first record; default the start of the text
 * @returns the offset up to which records can be read: the start of the record with the unclosed quote, else the end
 */
export function checkQuotes(source: SourceText, problems: ProblemCollector, delimiter = ",", from = 0): number {
  const { text } = source;
  if (!text.includes('"', from)) return text.length;
  for (let record = from; record < text.length;) {
    const ranges = fieldRanges(text, record, delimiter);
    for (const [start, end] of ranges) {
      if (text[start] !== '"') {
        const stray = text.slice(start, end).indexOf('"');
        if (stray !== -1) {
          problems.add("E_CSV_QUOTE_STRAY", placeOf(source, start + stray), { found: "inside an unquoted field" });
        }
        continue;
      }
      const closing = closingQuote(text, start);
      if (closing >= text.length) {
        problems.add("E_CSV_QUOTE_UNCLOSED", placeOf(source, start), { found: '"' });
        return record;
      }
      if (closing + 1 < end) {
        const found = "before the end of a quoted field";
        problems.add("E_CSV_QUOTE_STRAY", placeOf(source, closing), { found });
      }
    }
    record = ranges.at(-1)![1] + 1;
  }
  return text.length;
}
