import { readFileSync, readdirSync } from "node:fs";
import { basename, join } from "node:path";
import { parse } from "csv-parse/sync";

/** One stream of a tester as two parallel arrays in file order. */
export interface StreamFile {
  /** File name without its ending. */
  readonly name: string;
  readonly displacementMm: Float64Array;
  readonly forceCn: Float64Array;
}

/** cN in one of each unit of measure that a force column may name (1 gf = 0.980 665 cN exactly). */
const centinewtonsIn: Readonly<Record<string, number>> = {
  force_gf: 0.980665,
  force_cN: 1,
  force_N: 100,
  force_mN: 0.1,
};

/**
 * Reads a CSV with the columns `displacement_mm` and one of `force_gf`, `force_cN`, `force_N`, `force_mN`.
 * @throws Error where a column is missing or a field is not a number, with file and line
 */
export function readStreamCsv(path: string): StreamFile {
  const [header, ...rows]: string[][] = parse(readFileSync(path), { bom: true, trim: true, skip_empty_lines: true });
  const displacementColumn = header?.indexOf("displacement_mm") ?? -1;
  const forceName = header?.find((name) => name in centinewtonsIn);
  if (header === undefined || displacementColumn < 0 || forceName === undefined) {
    const known = Object.keys(centinewtonsIn).join(", ");
    throw new Error(
      `${path}: expected displacement_mm and one of ${known}; found ${header?.join(", ") ?? "no header"}`,
    );
  }
  const forceColumn = header.indexOf(forceName);
  const read = (column: number): Float64Array =>
    Float64Array.from(rows, (row, index) => {
      const text = row[column] ?? "";
      const value = Number(text);
      if (text === "" || !Number.isFinite(value)) {
        throw new Error(`${path}:${index + 2}: expected a number in ${header[column]}, found "${text}"`);
      }
      return value;
    });
  const scale = centinewtonsIn[forceName]!;
  return {
    name: basename(path).replace(/\.csv$/i, ""),
    displacementMm: read(displacementColumn),
    forceCn: read(forceColumn).map((value) => value * scale),
  };
}

/** All CSV files of a folder, in the order of their names by code unit. */
export function readStreamFolder(folder: string): readonly StreamFile[] {
  const names = readdirSync(folder)
    .filter((name) => /\.csv$/i.test(name))
    .sort((a, b) => (a < b ? -1 : a > b ? 1 : 0));
  if (names.length === 0) throw new Error(`${folder}: holds no CSV file`);
  return names.map((name) => readStreamCsv(join(folder, name)));
}
