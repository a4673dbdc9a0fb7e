/** Page and height, in points from the page's lower edge, of every named place in a PDF that Chromium wrote. */
export type PdfPlaces = ReadonlyMap<string, { readonly page: number; readonly y: number }>;

/**
 * Reads the named destinations of a PDF. Chromium writes one for each element that a link in the page leads to, as
 * `/name [page 0 R /XYZ x y 0]`, uncompressed.
 */
export function readPdfPlaces(pdf: Buffer): PdfPlaces {
  const text = pdf.toString("latin1");
  const places = new Map<string, { page: number; y: number }>();
  for (const match of text.matchAll(/\/([\w-]+)\s*\[\s*(\d+) 0 R\s*\/XYZ\s+([\d.-]+)\s+([\d.-]+)\s+[\d.-]+\s*\]/g)) {
    places.set(match[1]!, { page: Number(match[2]), y: Number(match[4]) });
  }
  return places;
}
