import type { Token } from "markdown-it";

/** Something that begins with `[=` in the text of a template. */
export interface InlineMark {
  /** `value`: closed on its line; `open`: not closed; `unread`: beside backticks that may or may not make it code. */
  readonly kind: "value" | "open" | "unread";
  readonly line: number;
  /** 1-based column of `[=`. */
  readonly column: number;
  /** What stands in the template, marks included. */
  readonly raw: string;
  /** `open` only: `=]` follows on a later line of the same paragraph. */
  readonly closedLater: boolean;
}

export interface InlineScan {
  /** The lines with every mark replaced by a placeholder that Markdown takes for a letter. */
  readonly lines: readonly string[];
  readonly marks: readonly InlineMark[];
  /** Finds placeholders; the one group is the mark's index. */
  readonly placeholder: RegExp;
}

/**
 * Finds inline values before Markdown sees them, so that an expression may hold pipes, stars and backticks. Code is left
 * alone: fences and indented code by the block structure, code spans by their backticks, leftmost first as in CommonMark
 * 0.31 section 6.1. A backslash before `[=` makes it text.
 *
 * @param blocks block tokens of the unchanged lines, for where code and paragraphs lie
 */
export function scanInlineValues(lines: readonly string[], blocks: readonly Token[]): InlineScan {
  const [opening, closing] = unusedCharacters(lines);
  const placeholder = new RegExp(`${opening}(\\d+)${closing}`, "g");
  const marks: InlineMark[] = [];
  const replaced = [...lines];
  for (const [start, end] of textRanges(lines.length, blocks)) {
    const scan = new ParagraphScan(lines.slice(start, end), start + 1, (mark) => {
      marks.push(mark);
      return `${opening}${marks.length - 1}${closing}`;
    });
    scan
      .run()
      .split("\n")
      .forEach((line, index) => (replaced[start + index] = line));
  }
  return { lines: replaced, marks, placeholder };
}

/** Runs of lines that Markdown reads as one stretch of text, as [first, after last], 0-based; code belongs to none. */
function textRanges(lineCount: number, blocks: readonly Token[]): readonly (readonly [number, number])[] {
  const owner = Array.from({ length: lineCount }, (_, line) => line);
  const code = new Set<number>();
  for (const { type, map } of blocks) {
    if (!map) continue;
    const [from, to] = map;
    for (let line = from; line < Math.min(to, lineCount); line++) {
      if (type === "fence" || type === "code_block") code.add(line);
      else if (type === "inline") owner[line] = from;
    }
  }
  const ranges: [number, number][] = [];
  for (let line = 0; line < lineCount; line++) {
    if (code.has(line)) continue;
    const last = ranges.at(-1);
    if (last !== undefined && last[1] === line && owner[line] === last[0]) last[1] = line + 1;
    else ranges.push([line, line + 1]);
  }
  return ranges;
}

/** Two characters of a private use area that the template does not hold. */
function unusedCharacters(lines: readonly string[]): readonly [string, string] {
  const used = new Set(lines.join("").match(/[\uE000-\uF8FF]/g));
  const free: string[] = [];
  for (let code = 0xe000; code <= 0xf8ff && free.length < 2; code++) {
    if (!used.has(String.fromCharCode(code))) free.push(String.fromCharCode(code));
  }
  const [opening, closing] = free;
  if (opening === undefined || closing === undefined) {
    throw new RangeError("the template uses every character of the private use area U+E000 to U+F8FF");
  }
  return [opening, closing];
}

class ParagraphScan {
  readonly #text: string;
  readonly #replace: (mark: InlineMark) => string;
  #at = 0;
  /** Line and its offset at the last mark. */
  #line: number;
  #lineStart = 0;
  #out = "";

  constructor(lines: readonly string[], firstLine: number, replace: (mark: InlineMark) => string) {
    this.#text = lines.join("\n");
    this.#line = firstLine;
    this.#replace = replace;
  }

  run(): string {
    while (this.#at < this.#text.length) {
      const char = this.#text[this.#at]!;
      if (char === "\\") this.#copy(2);
      else if (char === "`") this.#codeSpan();
      else if (this.#text.startsWith("[=", this.#at)) this.#inlineValue();
      else this.#copy(1);
    }
    return this.#out;
  }

  #copy(length: number): void {
    this.#out += this.#text.slice(this.#at, this.#at + length);
    this.#at += length;
  }

  /** Inside a code span `[=` is set aside too: if Markdown does not see the span, nothing must vanish in silence. */
  #codeSpan(): void {
    const ticks = this.#ticksAt(this.#at);
    const end = this.#runOf(ticks, this.#at + ticks);
    this.#copy(ticks);
    if (end === null) return;
    while (this.#at < end) {
      if (this.#text.startsWith("[=", this.#at)) this.#mark("unread", this.#at + 2);
      else this.#copy(1);
    }
    this.#copy(ticks);
  }

  #ticksAt(at: number): number {
    let end = at;
    while (this.#text[end] === "`") end++;
    return end - at;
  }

  /** Where the next run of so many backticks stands; null where there is none. */
  #runOf(length: number, from: number): number | null {
    for (let at = this.#text.indexOf("`", from); at >= 0; ) {
      const ticks = this.#ticksAt(at);
      if (ticks === length) return at;
      at = this.#text.indexOf("`", at + ticks);
    }
    return null;
  }

  #inlineValue(): void {
    const lineEnd = this.#text.indexOf("\n", this.#at);
    const end = lineEnd < 0 ? this.#text.length : lineEnd;
    const close = findClose(this.#text.slice(this.#at + 2, end));
    if (close === null) this.#mark("open", this.#at + 2, this.#text.indexOf("=]", end) >= 0);
    else this.#mark("value", this.#at + 2 + close + 2);
  }

  #mark(kind: InlineMark["kind"], end: number, closedLater = false): void {
    for (let next = this.#text.indexOf("\n", this.#lineStart); next >= 0 && next < this.#at; ) {
      this.#line++;
      this.#lineStart = next + 1;
      next = this.#text.indexOf("\n", this.#lineStart);
    }
    const raw = this.#text.slice(this.#at, end);
    this.#out += this.#replace({ kind, line: this.#line, column: this.#at - this.#lineStart + 1, raw, closedLater });
    this.#at = end;
  }
}

/**
 * Offset of the `=]` that closes an expression: the first outside its texts, else the first at all. Null where there is
 * none, or where another value opens before it.
 */
function findClose(rest: string): number | null {
  let quote = "";
  for (let at = 0; at < rest.length; at++) {
    const char = rest[at]!;
    if (quote !== "") {
      if (char === "\\") at++;
      else if (char === quote) quote = "";
    } else if (char === '"' || char === "'" || char === "`") quote = char;
    else if (rest.startsWith("=]", at)) return at;
    else if (rest.startsWith("[=", at)) return null;
  }
  const first = rest.indexOf("=]");
  const next = rest.indexOf("[=");
  return first < 0 || (next >= 0 && next < first) ? null : first;
}
