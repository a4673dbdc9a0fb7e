import type { Token } from "markdown-it";
import type { Cell } from "../outcome.js";
import type { Wording } from "../problem.js";
import { parseCellHead } from "./cell-head.js";
import * as wording from "./wording.js";

export type Report = (line: number, column: number, length: number, said: Wording) => void;

/** Finds the fences that are cells, in page order; cells with a faulty head are reported and left as listings. */
export function findCells(
  tokens: readonly Token[],
  lines: readonly string[],
  report: Report,
): { readonly cells: readonly Cell[]; readonly cellOfFence: ReadonlyMap<Token, Cell> } {
  const cells: Cell[] = [];
  const cellOfFence = new Map<Token, Cell>();
  const firstUse = new Map<string, number>();
  for (const token of tokens) {
    if (token.type !== "fence" || !token.map) continue;
    const [start, end] = token.map;
    const fenceLine = start + 1;
    const opening = lines[start]!;
    const quoted = /^[>\s*+\-\d.)]*/.exec(opening)![0];
    const nested = token.level > 0;
    const { head, problems } = parseCellHead(nested ? opening.slice(quoted.length) : opening);
    const closed = end - start > 1 && isClosing(lines[end - 1]!, token.markup, nested);
    if (!closed) report(fenceLine, opening.indexOf(token.markup) + 1, token.markup.length, wording.openFence);
    if (nested) {
      if (head !== null) report(fenceLine, quoted.length + head.roleColumn, head.role.length, wording.nestedCell(head.role));
      continue;
    }
    for (const problem of problems) report(fenceLine, problem.column, problem.length, problem.wording);
    if (head === null) continue;
    const { role, id, caption, roleColumn, idColumn } = head;
    const caught = /\[=.*=\]/.exec(caption ?? "");
    if (caught !== null) {
      report(fenceLine, opening.lastIndexOf(caught[0]) + 1, caught[0].length, wording.misplacedInline("a caption"));
    }
    const body = lines.slice(start + 1, closed ? end - 1 : end);
    const source = body.join("\n");
    if (source.trim() === "") report(fenceLine, roleColumn, role.length, wording.emptyCell(role));
    if (id !== null) {
      const earlier = firstUse.get(id);
      if (earlier === undefined) firstUse.set(id, fenceLine);
      else report(fenceLine, idColumn, id.length, wording.repeatedId(id, earlier));
    }
    const place = { fenceLine, firstLine: fenceLine + 1, lastLine: fenceLine + body.length };
    const cell: Cell = { index: cells.length, role, id, caption, ...place, source };
    cells.push(cell);
    cellOfFence.set(token, cell);
  }
  return { cells, cellOfFence };
}

function isClosing(line: string, markup: string, nested: boolean): boolean {
  const text = (nested ? line.replace(/^[>\s]*/, "") : line).trim();
  return text.length >= markup.length && [...text].every((char) => char === markup[0]);
}
