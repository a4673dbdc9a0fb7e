import { roleOnFence } from "../parse/cell-head.js";
import type { ParsedTemplate } from "../parse/parse-template.js";
import type { Place } from "../text-lines.js";
import { placeOfOffset } from "../text-lines.js";
import type { SyntaxReading } from "./check-syntax.js";

/** A stretch of the module that is a cell's or an inline value's own text. */
export interface Slot {
  readonly kind: "cell" | "inline";
  /** Index among the cells, or among the inline values. */
  readonly index: number;
  /** Offsets of its text in the module; both the same where it could not be put there. */
  readonly start: number;
  readonly end: number;
}

/** A template as one TypeScript module: line n of the module is line n of the template. */
export interface Assembly {
  readonly text: string;
  readonly slots: readonly Slot[];
  /** The slot whose text or wrapper holds an offset; null where no slot stands on that line. */
  slotAt(offset: number): Slot | null;
  /** The place in the template of a stretch of the module, and its length there. */
  locate(start: number, length: number): { readonly place: Place; readonly length: number };
}

/** Return types that the wrappers declare; the names live in the prelude. */
const resultTypes = { figure: "__benchfolio.Chart", table: "__benchfolio.Table", criterion: "__benchfolio.Verdict" };

interface Piece {
  readonly slot: { readonly kind: Slot["kind"]; readonly index: number };
  /** 1-based columns of its text in the module's line and in the template's. */
  readonly moduleColumn: number;
  readonly templateColumn: number;
  readonly length: number;
  /** Columns of the module's line that its wrapper takes, from and to. */
  readonly from: number;
  readonly to: number;
}

/**
 * Puts the cells and inline values of a template into one module. Text becomes empty lines; the two fence lines of a cell
 * carry its wrapper; several inline values of one line stand side by side on it, with a table of how far each was shifted.
 * Snippets that do not parse alone are left out; names of a broken work cell are declared as `any`.
 *
 * @param readings of the cells and the inline values, by their index
 */
export function assembleModule(
  template: ParsedTemplate,
  cellReadings: readonly SyntaxReading[],
  inlineReadings: readonly SyntaxReading[],
): Assembly {
  const lines = template.lines.map(() => "");
  const pieces = new Map<number, Piece[]>();
  const cellOfLine = new Map<number, number>();
  for (const { index, role, fenceLine, firstLine, lastLine } of template.cells) {
    const reading = cellReadings[index]!;
    const opening = role === "work" ? "" : `function __benchfolio_cell${index}(): ${resultTypes[role]} {`;
    const stand = role === "work" ? reading.names.map(anyName).join("") : "";
    lines[fenceLine - 1] = reading.broken ? stand : opening;
    for (let line = fenceLine; line <= Math.min(lastLine + 1, lines.length); line++) cellOfLine.set(line, index);
    if (reading.broken) continue;
    for (let line = firstLine; line <= lastLine; line++) lines[line - 1] = template.lines[line - 1]!;
    const closing = role === "work" ? ";" : "}";
    if (lastLine < lines.length) lines[lastLine] = closing;
    else lines[lastLine - 1] += `\u0020${closing}`;
  }
  for (const { index, line, column, source } of template.inlines) {
    if (inlineReadings[index]!.broken) continue;
    const head = `function __benchfolio_value${index}(): __benchfolio.Printable { return (`;
    const before = lines[line - 1]!;
    const from = before.length + 1;
    lines[line - 1] = `${before}${head}${source}); }`;
    const moduleColumn = from + head.length;
    const piece = { moduleColumn, templateColumn: column, length: source.length, from, to: lines[line - 1]!.length };
    pieces.set(line, [...(pieces.get(line) ?? []), { slot: { kind: "inline", index }, ...piece }]);
  }
  const text = lines.join("\n");
  const lineStarts: number[] = [];
  let at = 0;
  for (const line of lines) {
    lineStarts.push(at);
    at += line.length + 1;
  }
  const slots: Slot[] = [];
  for (const { index, firstLine, lastLine } of template.cells) {
    const start = lineStarts[firstLine - 1] ?? text.length;
    const broken = cellReadings[index]!.broken || lastLine < firstLine;
    const end = broken ? start : lineStarts[lastLine - 1]! + template.lines[lastLine - 1]!.length;
    slots.push({ kind: "cell", index, start, end });
  }
  for (const { index, line } of template.inlines) {
    const piece = pieces.get(line)?.find(({ slot }) => slot.index === index);
    const start = lineStarts[line - 1]! + (piece === undefined ? 0 : piece.moduleColumn - 1);
    slots.push({ kind: "inline", index, start, end: piece === undefined ? start : start + piece.length });
  }
  const cellSlots = new Map(slots.filter(({ kind }) => kind === "cell").map((slot) => [slot.index, slot]));
  const inlineSlots = new Map(slots.filter(({ kind }) => kind === "inline").map((slot) => [slot.index, slot]));

  const pieceAt = ({ line, column }: Place): Piece | undefined => {
    const onLine = pieces.get(line);
    return onLine?.find(({ from, to }) => column >= from && column <= to) ?? onLine?.at(-1);
  };
  return {
    text,
    slots,
    slotAt: (offset) => {
      const place = placeOfOffset(text, offset);
      const piece = pieceAt(place);
      if (piece !== undefined) return inlineSlots.get(piece.slot.index) ?? null;
      const cell = cellOfLine.get(place.line);
      return cell === undefined ? null : (cellSlots.get(cell) ?? null);
    },
    locate: (start, length) => {
      const place = placeOfOffset(text, start);
      const piece = pieceAt(place);
      if (piece !== undefined) {
        const shift = place.column - piece.moduleColumn;
        if (shift < 0 || shift >= piece.length) {
          return { place: { line: place.line, column: piece.templateColumn }, length: piece.length };
        }
        const column = piece.templateColumn + shift;
        return { place: { line: place.line, column }, length: Math.min(length, piece.length - shift) };
      }
      const cell = template.cells.find(({ index }) => index === cellOfLine.get(place.line));
      if (cell !== undefined && (place.line < cell.firstLine || place.line > cell.lastLine)) {
        return roleOnFence(template.lines[cell.fenceLine - 1]!, cell.role, cell.fenceLine);
      }
      const rest = text.slice(start, start + length).split("\n")[0]!;
      return { place, length: Math.max(1, rest.length) };
    },
  };
}

function anyName(name: string): string {
  return `declare const ${name}: any; type ${name} = any; `;
}
