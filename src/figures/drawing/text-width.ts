/**
 * Advance widths of printable ASCII in thousandths of the type size, from space to tilde, as published in the Adobe
 * core font metrics for the commonest sans serif. No document without a screen can measure text; this estimates it.
 */
const asciiWidths = [
  278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556, 556, 556, 556, 556,
  556, 556, 556, 278, 278, 584, 584, 584, 556, 1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833,
  722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556, 333, 556, 556, 500, 556,
  556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556, 556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334,
  260, 334, 584,
];

/** Room for the fonts that readers have in place of the one measured. */
const allowance = 1.04;

const combining = /^[\p{M}\p{Cf}]$/u;
const wide = /^[\p{Extended_Pictographic}\p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}\p{Script=Hangul}]$/u;

/** Estimated width of one line of text in px; an empty text has none. Depends on no font and no locale. */
export function textWidth(text: string, sizePx: number): number {
  let thousandths = 0;
  for (const character of text) thousandths += characterWidth(character);
  return (thousandths / 1000) * sizePx * allowance;
}

function characterWidth(character: string): number {
  const code = character.codePointAt(0)!;
  const known = asciiWidths[code - 32];
  if (known !== undefined) return known;
  if (code === 0xa0 || code === 0x202f) return 278;
  if (code === 0x2212 || code === 0xb1 || code === 0xd7) return 584;
  if (combining.test(character)) return 0;
  return wide.test(character) ? 1000 : 620;
}

/** The text, or its beginning and an ellipsis where it is wider than `widthPx`; never cuts a character in two. */
export function ellipsize(text: string, widthPx: number, sizePx: number): string {
  if (textWidth(text, sizePx) <= widthPx) return text;
  const characters = [...text];
  let kept = "";
  for (const character of characters) {
    if (textWidth(`${kept}${character}…`, sizePx) > widthPx) break;
    kept += character;
  }
  return `${kept.trimEnd()}…`;
}

/** Breaks a text at spaces into lines no wider than `widthPx`; a single wider word is cut with an ellipsis. */
export function wrapText(text: string, widthPx: number, sizePx: number): readonly string[] {
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(/[ \n]+/).filter((part) => part !== "")) {
    const longer = line === "" ? word : `${line} ${word}`;
    if (line !== "" && textWidth(longer, sizePx) > widthPx) {
      lines.push(line);
      line = word;
    } else {
      line = longer;
    }
  }
  if (line !== "") lines.push(line);
  return lines.map((part) => ellipsize(part, widthPx, sizePx));
}
