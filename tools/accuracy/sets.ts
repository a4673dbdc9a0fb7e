import { readFileSync } from "node:fs";
import { autocorrelationKernel, oneWayKernel, spreadKernel } from "../../src/statistics/index.js";
import { leastSquares } from "../../src/statistics/numeric/least-squares.js";
import { meanOf } from "../../src/statistics/numeric/sums.js";
import { correctDigits, ofDecimal, ofDouble } from "./exact.js";
import type { Ratio } from "./exact.js";
import { exactOneWay, exactPolynomial, exactUnivariate } from "./exact-statistics.js";

/** One certified value of one data set. */
export interface AccuracyLine {
  readonly set: string;
  readonly value: string;
  /** Correct digits that the kernel reaches. */
  readonly reached: number;
  /** Correct digits that exact arithmetic on the parsed doubles reaches. */
  readonly ceiling: number;
  readonly bar: number;
  readonly passes: boolean;
}

interface Entry {
  readonly id: string;
  readonly what: string;
  // eslint-disable-next-line @typescript-eslint/no-explicit-any
  readonly input: any;
  readonly expected: readonly { readonly name: string; readonly value: number; readonly printed?: string }[];
}

function entries(file: string): readonly Entry[] {
  const url = new URL(`../../tests/reference/${file}.json`, import.meta.url);
  return (JSON.parse(readFileSync(url, "utf8")) as { entries: Entry[] }).entries;
}

/** One digit less than exact arithmetic reaches, and at least 13 where it reaches more. */
export function barOf(ceiling: number): number {
  return ceiling > 13 ? Math.max(13, ceiling - 1) : Math.max(0, ceiling - 1);
}

function lines(
  entry: Entry,
  exact: Readonly<Record<string, Ratio>>,
  found: Readonly<Record<string, number>>,
): readonly AccuracyLine[] {
  return entry.expected.flatMap(({ name, value, printed }) => {
    const own = found[name];
    const best = exact[name];
    if (own === undefined || best === undefined) return [];
    const certified = ofDecimal(printed ?? String(value));
    const reached = correctDigits(ofDouble(own), certified);
    const ceiling = correctDigits(best, certified);
    const bar = barOf(ceiling);
    return [{ set: entry.what.split(":")[0]!, value: name, reached, ceiling, bar, passes: reached >= bar }];
  });
}

function univariateData(input: Entry["input"]): readonly number[] {
  if (input.digits !== undefined) return [...(input.digits as string)].map(Number);
  if (input.data !== undefined) return input.data;
  return [input.first, ...Array.from({ length: input.pairs }, () => [input.low, input.high]).flat()];
}

function groupsOf(input: Entry["input"]): readonly (readonly number[])[] {
  if (input.groups !== undefined) return input.groups;
  const { offset, treatmentCentreTenths, replicates } = input;
  // Parsed from text, as a file's values are.
  const tenth = (digit: number): number => Number(`${offset}.${digit}`);
  return treatmentCentreTenths.map((centre: number) => [
    tenth(centre),
    ...Array.from({ length: (replicates - 1) / 2 }, () => [tenth(centre - 1), tenth(centre + 1)]).flat(),
  ]);
}

function polynomial(xs: readonly number[], ys: readonly number[], degree: number): Readonly<Record<string, number>> {
  const columns = Array.from({ length: degree + 1 }, (_, j) => xs.map((x) => x ** j));
  const fit = leastSquares(columns, ys);
  const centre = meanOf(ys);
  const total = ys.reduce((sum, y) => sum + (y - centre) ** 2, 0);
  return {
    ...Object.fromEntries(fit.coefficients.map((b, j) => [`b${j}`, b])),
    ...Object.fromEntries(fit.standardErrors.map((error, j) => [`seB${j}`, error])),
    residualSumOfSquares: fit.residualSumOfSquares,
    residualStandardDeviation: fit.residualSd,
    rSquared: 1 - fit.residualSumOfSquares / total,
  };
}

/** Every certified value of the StRD sets at hand, with digits reached and the ceiling. */
export function accuracyLines(): readonly AccuracyLine[] {
  return [
    ...entries("nist-strd-univariate").flatMap((entry) => {
      const data = univariateData(entry.input);
      const { mean, sd } = spreadKernel(data);
      const found = { mean, standardDeviation: sd, lag1Autocorrelation: autocorrelationKernel(data) };
      return lines(entry, exactUnivariate(data), found);
    }),
    ...entries("nist-strd-anova").flatMap((entry) => {
      const groups = groupsOf(entry.input);
      const found = oneWayKernel(groups);
      return lines(entry, exactOneWay(groups), {
        ssBetween: found.ssBetween,
        ssWithin: found.ssWithin,
        F: found.F!,
        rSquared: found.rSquared!,
        residualStandardDeviation: found.residualSd,
      });
    }),
    ...entries("nist-strd-regression").flatMap((entry) => {
      const { x, y, degree } = entry.input;
      return lines(entry, exactPolynomial(x, y, degree), polynomial(x, y, degree));
    }),
  ];
}
