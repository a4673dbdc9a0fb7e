import type { Token } from "markdown-it";
import type { Cell, Inline } from "../outcome.js";
import type { Report } from "./find-cells.js";
import type { InlineMark, InlineScan } from "./inline-values.js";
import * as wording from "./wording.js";

/**
 * Puts cells and inline values where their fences and placeholders stand, gives code back its own characters, and
 * refuses links that a page must not hold. Changes the tokens in place.
 *
 * @returns the inline values that stand in text, in page order
 */
export function settleTokens(
  tokens: Token[],
  lines: readonly string[],
  scan: InlineScan,
  cellOfFence: ReadonlyMap<Token, Cell>,
  report: Report,
): readonly Inline[] {
  return new Settling(lines, scan, cellOfFence, report).run(tokens);
}

class Settling {
  readonly #lines: readonly string[];
  readonly #scan: InlineScan;
  readonly #cellOfFence: ReadonlyMap<Token, Cell>;
  readonly #report: Report;
  readonly #inlines: Inline[] = [];
  readonly #settled = new Set<number>();
  #line = 1;

  constructor(lines: readonly string[], scan: InlineScan, cellOfFence: ReadonlyMap<Token, Cell>, report: Report) {
    this.#lines = lines;
    this.#scan = scan;
    this.#cellOfFence = cellOfFence;
    this.#report = report;
  }

  run(tokens: Token[]): readonly Inline[] {
    for (const token of tokens) {
      if (token.map) this.#line = token.map[0] + 1;
      const cell = this.#cellOfFence.get(token);
      if (cell !== undefined) this.#settleCell(token, cell);
      else if (token.type === "inline") token.children = this.#settleChildren(token.children ?? []);
      else if (token.content !== "") token.content = this.#restore(token.content);
      if (token.info !== "") token.info = this.#restore(token.info);
    }
    this.#scan.marks.forEach((mark, index) => {
      if (this.#settled.has(index)) return;
      if (mark.kind === "value") this.#refuse(mark, wording.misplacedInline("a link's address or title"));
    });
    return this.#inlines;
  }

  #settleCell(token: Token, cell: Cell): void {
    token.type = "benchfolio_cell";
    token.tag = "";
    token.content = cell.source;
    token.meta = { index: cell.index };
  }

  #settleChildren(children: readonly Token[]): Token[] {
    return children.flatMap((child) => {
      if (child.type === "text") return this.#settleText(child);
      if (child.type === "link_open") this.#settleLink(child);
      if (child.type === "image") this.#refuseImage(child);
      if (child.content !== "") child.content = this.#restore(child.content);
      return [child];
    });
  }

  #settleText(token: Token): Token[] {
    const parts: Token[] = [];
    const addText = (content: string): void => {
      if (content === "") return;
      const text = copyOf(token, "text");
      text.content = content;
      parts.push(text);
    };
    let from = 0;
    for (const match of token.content.matchAll(this.#scan.placeholder)) {
      addText(token.content.slice(from, match.index));
      from = match.index + match[0].length;
      const index = Number(match[1]);
      const mark = this.#scan.marks[index]!;
      this.#settled.add(index);
      if (mark.kind === "value") {
        const value = copyOf(token, "benchfolio_value");
        value.meta = { index: this.#addInline(mark) };
        parts.push(value);
      } else {
        this.#refuse(mark, mark.kind === "open" ? wording.openInline(mark.closedLater) : wording.unreadInline);
        addText(mark.raw);
      }
    }
    addText(token.content.slice(from));
    return parts;
  }

  #addInline(mark: InlineMark): number {
    const inner = mark.raw.slice(2, -2);
    const source = inner.trim();
    const index = this.#inlines.length;
    const column = mark.column + 2 + (source === "" ? 0 : inner.length - inner.trimStart().length);
    if (source === "") this.#refuse(mark, wording.emptyInline);
    this.#inlines.push({ index, line: mark.line, column, source });
    return index;
  }

  #settleLink(token: Token): void {
    const address = String(token.attrGet("href") ?? "");
    if (decoded(address).search(this.#scan.placeholder) >= 0) {
      token.attrSet("href", "");
      return;
    }
    if (/^(https?:|mailto:|#|(?![a-z][a-z0-9+.-]*:|\/\/))/i.test(address)) return;
    const place = this.#find(address);
    this.#report(place.line, place.column, place.length, wording.unsafeLink(address));
    token.attrSet("href", "");
  }

  #refuseImage(token: Token): void {
    const place = this.#find(String(token.attrGet("src") ?? ""));
    this.#report(place.line, place.column, place.length, wording.image);
    token.attrSet("src", "");
  }

  /** Where a text stands at or after the current line; the line's beginning where it was written otherwise. */
  #find(text: string): { readonly line: number; readonly column: number; readonly length: number } {
    for (let line = this.#line; text !== "" && line <= this.#lines.length; line++) {
      const at = this.#lines[line - 1]!.indexOf(text);
      if (at >= 0) return { line, column: at + 1, length: text.length };
    }
    return { line: this.#line, column: 1, length: this.#lines[this.#line - 1]?.length ?? 1 };
  }

  /** Gives code, and what stands in attributes, the characters of the template again. */
  #restore(content: string): string {
    return content.replace(this.#scan.placeholder, (_, digits: string) => {
      this.#settled.add(Number(digits));
      return this.#scan.marks[Number(digits)]!.raw;
    });
  }

  #refuse(mark: InlineMark, said: ReturnType<typeof wording.openInline>): void {
    this.#report(mark.line, mark.column, mark.raw.length, said);
  }
}

/** Markdown percent-encodes what is not ASCII in an address. */
function decoded(address: string): string {
  try {
    return decodeURI(address);
  } catch {
    return address;
  }
}

function copyOf(token: Token, type: string): Token {
  const copy = Object.create(Object.getPrototypeOf(token) as object) as Token;
  return Object.assign(copy, token, { type, tag: "", content: "", attrs: null, children: null, meta: null });
}
