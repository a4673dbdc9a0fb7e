/** How units of measure are written by testers and in spreadsheets, by the suffix of the archive's columns. */
const spellings: Readonly<Record<string, readonly string[]>> = {
  mm: ["mm", "millimeter", "millimeters", "millimetre", "millimetres", "millimètre", "millimètres", "milímetro", "milímetros", "millimetri", "мм"], // prettier-ignore
  um: ["um", "µm", "micron", "microns", "micrometer", "micrometers", "micrometre", "micrometres", "mikrometer", "мкм"],
  in: ["in", "inch", "inches", '"', "″", "zoll", "pouce", "pouces", "pulgada", "pulgadas"],
  cN: ["cN", "centinewton", "centinewtons"],
  gf: ["gf", "g", "gr", "grf", "gram", "grams", "gramm", "gramme", "grammes", "gramos", "grammi", "gram-force", "gramforce", "гс", "г"], // prettier-ignore
  N: ["N", "newton", "newtons", "н"],
  mN: ["mN", "millinewton", "millinewtons", "мн"],
  us: ["us", "µs", "usec", "microsecond", "microseconds", "mikrosekunden", "мкс"],
  ms: ["ms", "msec", "millisecond", "milliseconds", "millisekunden", "мс"],
  s: ["s", "sec", "second", "seconds", "sek", "sekunden", "seconde", "secondes", "segundos", "с"],
  frames: ["frames", "frame", "fr", "bilder", "bild", "bildnummer", "images", "image", "fotogramas", "кадр"],
};

const exact = new Map(Object.entries(spellings).flatMap(([unit, words]) => words.map((word) => [word, unit])));
const folded = new Map(
  Object.entries(spellings).flatMap(([unit, words]) =>
    // One letter in another case is another unit of measure (M is no m), except in words.
    words.filter((word) => word.length > 2).map((word) => [word.toLowerCase(), unit]),
  ),
);

/** The suffix of the unit of measure that a text names, in brackets or not; undefined where it names none. */
export function unitOfWord(text: string): string | undefined {
  const word = text
    .trim()
    .replace(/^[[(<{]\s*(.*?)\s*[\])>}]$/su, "$1")
    .replaceAll("\u03bc", "µ")
    .replace(/\.$/, "");
  return exact.get(word) ?? folded.get(word.toLowerCase());
}

/**
 * The unit of measure that a column's name states: as the whole name, in brackets at its end, or after its last `_`, `/`,
 * `,`, or as `in mm`. A bare word at the end of a longer name counts only with one of these before it. Undefined where it
 * states none.
 */
export function unitInHeader(header: string): string | undefined {
  const name = header.trim();
  const bracketed = /[[(<{]\s*([^[\](){}<>]*?)\s*[\])>}]\s*$/u.exec(name)?.[1];
  if (bracketed !== undefined) return unitOfWord(bracketed);
  const marked = /(?:[_/,;]\s*|\s(?:in|en)\s+|\s-\s)([^\s_/,;]+)$/u.exec(name)?.[1];
  return unitOfWord(marked ?? name);
}

/** What a unit of measure measures. */
export function kindOfUnit(unit: string): "length" | "force" | "time" | "frames" {
  if (unit === "mm" || unit === "um" || unit === "in") return "length";
  if (unit === "us" || unit === "ms" || unit === "s") return "time";
  return unit === "frames" ? "frames" : "force";
}
