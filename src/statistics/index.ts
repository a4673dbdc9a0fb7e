export type {
  AgreementOptions,
  BlandAltman,
  Bounded,
  RatioAgreement,
  ReplicateAgreement,
} from "./agreement/bland-altman.js";
export {
  blandAltman,
  blandAltmanKernel,
  ratioAgreement,
  ratioAgreementKernel,
  replicateAgreementKernel,
} from "./agreement/bland-altman.js";
export type { Concordance } from "./agreement/concordance.js";
export { concordance, concordanceKernel } from "./agreement/concordance.js";
export type { DemingOptions, FunctionalRelation, LineBounds, LineFit } from "./agreement/deming.js";
export { deming, demingKernel, functionalRelationKernel } from "./agreement/deming.js";
export type { PassingBablok } from "./agreement/passing-bablok.js";
export { passingBablok, passingBablokKernel } from "./agreement/passing-bablok.js";
export type { RankCorrelation } from "./agreement/rank-correlation.js";
export { kendall, kendallKernel, spearman, spearmanKernel } from "./agreement/rank-correlation.js";
export { enScoreKernel, zetaScoreKernel } from "./agreement/scores.js";
export { autocorrelation, autocorrelationKernel } from "./describe/autocorrelation.js";
export { count } from "./describe/count.js";
export { harrellDavis, harrellDavisKernel } from "./describe/harrell-davis.js";
export { mean, meanKernel } from "./describe/mean.js";
export type { Moments } from "./describe/moments.js";
export { moments, momentsKernel } from "./describe/moments.js";
export type { TestResult } from "./describe/normality.js";
export { andersonDarling, andersonDarlingKernel, shapiroWilk, shapiroWilkKernel } from "./describe/normality.js";
export { quantileErrorKernel } from "./describe/quantile-error.js";
export type { QuantileOptions, QuantileType } from "./describe/quantile.js";
export { median, medianKernel, quantile, quantileKernel } from "./describe/quantile.js";
export type { RobustLocation } from "./describe/robust.js";
export { algorithmA, algorithmAKernel, hodgesLehmann, hodgesLehmannKernel, mad, madKernel } from "./describe/robust.js";
export type { Spread } from "./describe/spread.js";
export { spread, spreadKernel } from "./describe/spread.js";
export type { Ecdf, EcdfPoint } from "./distribution/ecdf.js";
export { ecdf, ecdfKernel } from "./distribution/ecdf.js";
export type { BinRule, Histogram, HistogramOptions } from "./distribution/histogram.js";
export { histogramKernel } from "./distribution/histogram.js";
export type { Density, DensityOptions } from "./distribution/kernel-density.js";
export { kernelDensityKernel } from "./distribution/kernel-density.js";
export type { PollingMixture } from "./distribution/polling-mixture.js";
export { pollingMixture, pollingMixtureKernel } from "./distribution/polling-mixture.js";
export type { ShiftOptions, ShiftPoint } from "./distribution/shift-function.js";
export { shiftFunction, shiftFunctionKernel } from "./distribution/shift-function.js";
export type { BootstrapInterval, BootstrapOptions } from "./intervals/bootstrap.js";
export { bootstrapInterval, bootstrapIntervalKernel } from "./intervals/bootstrap.js";
export type { LevelOptions, MeanInterval, SdInterval } from "./intervals/mean-interval.js";
export { meanInterval, meanIntervalKernel, sdInterval, sdIntervalKernel } from "./intervals/mean-interval.js";
export type { PredictionInterval, PredictionOptions } from "./intervals/prediction-interval.js";
export {
  predictionFactorKernel,
  predictionInterval,
  predictionIntervalKernel,
} from "./intervals/prediction-interval.js";
export type { ProportionInterval, ProportionOptions } from "./intervals/proportion-interval.js";
export { proportionInterval, proportionIntervalKernel } from "./intervals/proportion-interval.js";
export type { QuantileInterval, QuantileIntervalOptions } from "./intervals/quantile-interval.js";
export { quantileInterval, quantileIntervalKernel } from "./intervals/quantile-interval.js";
export type { ToleranceOptions } from "./intervals/tolerance-factors.js";
export {
  distributionFreeSizeKernel,
  noncentralTCdf,
  oneSidedToleranceFactorKernel,
  toleranceFactorKernel,
} from "./intervals/tolerance-factors.js";
export type { HeldShare, ToleranceInterval } from "./intervals/tolerance-interval.js";
export {
  heldShare,
  heldShareKernel,
  toleranceInterval,
  toleranceIntervalKernel,
} from "./intervals/tolerance-interval.js";
export type { FactorKernel } from "./lift/lift-factors.js";
export { liftFactors } from "./lift/lift-factors.js";
export type { PairKernel } from "./lift/lift-paired.js";
export { liftPaired, liftSamples, liftTrend } from "./lift/lift-paired.js";
export type { Kernel, LiftedOptions } from "./lift/lift.js";
export { lift } from "./lift/lift.js";
export type { LeafShape, Lifted, Per, Shape, Squared } from "./lift/shape.js";
export { Undetermined } from "./numeric/guards.js";
export type { SeededRandom } from "./numeric/random.js";
export { seededRandom } from "./numeric/random.js";
export type { CochranFinding, CochranOptions } from "./outliers/cochran.js";
export { cochran, cochranKernel } from "./outliers/cochran.js";
export type { DixonOptions } from "./outliers/dixon.js";
export { dixon, dixonCritical, dixonRatio, dixonKernel } from "./outliers/dixon.js";
export type { Fences } from "./outliers/fences.js";
export { hampel, hampelKernel, tukeyFences, tukeyFencesKernel } from "./outliers/fences.js";
export type { OutlierFinding, Side } from "./outliers/finding.js";
export type { EsdStep, GeneralisedEsd, GeneralisedEsdOptions } from "./outliers/generalised-esd.js";
export { generalisedEsd, generalisedEsdKernel } from "./outliers/generalised-esd.js";
export type { GrubbsPairOptions, PairFinding } from "./outliers/grubbs-pair.js";
export { grubbsPair, grubbsPairKernel } from "./outliers/grubbs-pair.js";
export type { GrubbsOptions } from "./outliers/grubbs.js";
export { grubbs, grubbsCritical, grubbsKernel } from "./outliers/grubbs.js";
export type { Mandel, MandelOptions } from "./outliers/mandel.js";
export { mandel, mandelHCritical, mandelKCritical, mandelKernel } from "./outliers/mandel.js";
export type { KolmogorovSmirnov } from "./tests/kolmogorov-smirnov.js";
export { kolmogorovSmirnov, kolmogorovSmirnovKernel } from "./tests/kolmogorov-smirnov.js";
export type { MannWhitney } from "./tests/mann-whitney.js";
export { mannWhitney, mannWhitneyKernel } from "./tests/mann-whitney.js";
export { benjaminiHochbergKernel, holmKernel } from "./tests/multiplicity.js";
export type { Equivalence, EquivalenceOptions, TTest, TwoSampleOptions } from "./tests/t-tests.js";
export {
  equivalence,
  equivalenceKernel,
  equivalenceOfKernel,
  pairedT,
  pairedTKernel,
  twoSampleT,
  twoSampleTKernel,
} from "./tests/t-tests.js";
export type { RankOptions, SignedRank } from "./tests/wilcoxon.js";
export { signedRank, signedRankKernel } from "./tests/wilcoxon.js";
export type { ChangePoint, ChangePointOptions, RunsTest } from "./time/change-point.js";
export { changePoint, changePointKernel, runsTest, runsTestKernel } from "./time/change-point.js";
export type { ControlConstants } from "./time/control-constants.js";
export { controlConstantsKernel } from "./time/control-constants.js";
export type { Drift } from "./time/drift.js";
export { drift, driftKernel } from "./time/drift.js";
export type { CusumChart, CusumOptions, EwmaChart, EwmaOptions } from "./time/memory-charts.js";
export { cusum, cusumKernel, ewma, ewmaKernel } from "./time/memory-charts.js";
export type { RunRule, RunRules, RunRulesOptions } from "./time/run-rules.js";
export { runRuleNames, runRules, runRulesKernel } from "./time/run-rules.js";
export type { IndividualsChart, IndividualsOptions, SubgroupChart } from "./time/shewhart.js";
export { individuals, individualsKernel, subgroupChart, subgroupChartKernel } from "./time/shewhart.js";
export type { BetweenSd, BetweenSdOptions } from "./variance/between-sd.js";
export { betweenSd, betweenSdKernel } from "./variance/between-sd.js";
export type { FactorEffect, FactorEffects } from "./variance/factor-effects.js";
export { factorEffects, factorEffectsKernel } from "./variance/factor-effects.js";
export type { GaugeStudy, GaugeStudyOptions } from "./variance/gauge-study.js";
export { gaugeStudy, gaugeStudyKernel } from "./variance/gauge-study.js";
export type { Precision } from "./variance/interlaboratory.js";
export { precision, precisionKernel } from "./variance/interlaboratory.js";
export type { Intraclass, IntraclassForm } from "./variance/intraclass.js";
export { intraclass, intraclassKernel } from "./variance/intraclass.js";
export type { MeanSquareTerm, VarianceComponent } from "./variance/modified-large-sample.js";
export { modifiedLargeSampleKernel } from "./variance/modified-large-sample.js";
export type { NestedLine } from "./variance/nested.js";
export { nested, nestedKernel } from "./variance/nested.js";
export type { OneWay, OneWayOptions } from "./variance/one-way.js";
export { oneWay, oneWayKernel } from "./variance/one-way.js";
export type { Plan, PlanOptions, Scatter } from "./variance/planning.js";
export { cheapestPlanKernel, meanUncertaintyKernel, uncertaintyTable } from "./variance/planning.js";
export type { Reml, RemlComponent, RemlOptions } from "./variance/reml.js";
export { reml, remlKernel } from "./variance/reml.js";
export type { TwoWay, TwoWayLine, TwoWayOptions } from "./variance/two-way.js";
export { twoWay, twoWayKernel } from "./variance/two-way.js";
