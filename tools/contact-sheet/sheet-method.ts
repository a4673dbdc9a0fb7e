import type { EvidenceRows } from "../../src/metrology/evidence.js";
import type { KeystrokeMethod, Stated } from "../../src/records/archive.js";

const evidence: EvidenceRows = { kind: "rows", file: "contact-sheet", firstLine: 1, lastLine: 1, columns: [] };
const stated = <S extends string>(value: number, symbol: S): Stated<S> => ({ value, symbol, evidence });

/** The method with which a contact sheet is reduced: usual numbers for a tester that steps by 0.005 mm to 0.01 mm. */
export function sheetMethod(keys: readonly string[]): KeystrokeMethod {
  return {
    kind: "keystroke",
    id: "keystroke@contact-sheet",
    title: "Contact sheet",
    since: "2026-01-01",
    notes: [],
    file: "contact-sheet",
    evidence,
    keys,
    minKeys: 1,
    conditioningStrokes: 0,
    cycles: 1,
    cyclesUsed: [1],
    pressSpeed: stated(0.5, "mm/s"),
    smoothingWindow: stated(0.12, "mm"),
    prominence: stated(3, "cN"),
    bottomOutSlope: stated(300, "cN/mm"),
    touchDeviations: 6,
    touchForce: stated(1, "cN"),
  };
}
