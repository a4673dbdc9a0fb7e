/** A place in a template: 1-based line, and 1-based column in UTF-16 code units, as editors and the compiler count. */
export interface Place {
  readonly line: number;
  readonly column: number;
}

/**
 * A template's lines without their ends. CRLF and a lone CR end a line as LF does; a byte order mark is no part of the
 * first line. Always at least one line.
 */
export function splitLines(text: string): readonly string[] {
  return text.replace(/^\uFEFF/, "").split(/\r\n|\r|\n/);
}

/** The place of an offset in a text whose lines end with LF. Offsets outside the text give its nearest end. */
export function placeOfOffset(text: string, offset: number): Place {
  const end = Math.min(Math.max(offset, 0), text.length);
  let line = 1;
  let lineStart = 0;
  for (let at = text.indexOf("\n"); at >= 0 && at < end; at = text.indexOf("\n", at + 1)) {
    line++;
    lineStart = at + 1;
  }
  return { line, column: end - lineStart + 1 };
}
