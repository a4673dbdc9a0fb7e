import fQuantile from "@stdlib/stats-base-dists-f-quantile";
import { expect, test } from "vitest";
import { oneWayKernel, spreadKernel } from "../../src/statistics/index.js";
import { expectPublished, publishedEntry } from "../reference/load.js";

/** Five readings with a given mean and standard deviation: the table of H.5 prints only those two a day. */
function readingsLike(mean: number, sd: number): readonly number[] {
  const shape = [-2, -1, 0, 1, 2];
  return shape.map((x) => mean + (sd * x) / Math.sqrt(2.5));
}

test("JCGM 100 H.5: days of a voltage standard, their F and the uncertainty of the grand mean both ways", () => {
  const entry = publishedEntry("gum-examples.json", "gum-h5-anova");
  const { dailyMean_V: means, dailySd_microvolt: sds } = entry.input as Record<string, number[]>;
  const days = means!.map((mean, i) => readingsLike(mean, sds![i]! * 1e-6));
  const analysis = oneWayKernel(days);
  const microvolts = (volts: number): number => volts * 1e6;
  expectPublished(entry, "grandMean_V", analysis.mean);
  const ofMeans = spreadKernel(means!).sd;
  expectPublished(entry, "sOfDailyMeans_uV", microvolts(ofMeans));
  expectPublished(entry, "sVexact_uV", microvolts(ofMeans));
  expectPublished(entry, "pooledWithinSd_uV", microvolts(analysis.residualSd));
  expectPublished(entry, "sA_uV", microvolts(Math.sqrt(analysis.msBetween)));
  expectPublished(entry, "F", analysis.F!);
  expectPublished(entry, "Fexact", analysis.F!);
  expectPublished(entry, "Fcrit95", fQuantile(0.95, analysis.dofBetween, analysis.dofWithin));
  expectPublished(entry, "Fcrit975", fQuantile(0.975, analysis.dofBetween, analysis.dofWithin));
  expectPublished(entry, "sBetween_uV", microvolts(analysis.between.sd));
  expectPublished(entry, "uDaysSignificant_uV", microvolts(ofMeans / Math.sqrt(10)));
  const pooled = Math.sqrt((analysis.ssBetween + analysis.ssWithin) / (analysis.dofBetween + analysis.dofWithin));
  expectPublished(entry, "uDaysNotSignificant_uV", microvolts(pooled / Math.sqrt(50)));
  expect(analysis.balanced).toBe(true);
});
