import { expect, test } from "vitest";
import type { Measured } from "../../../src/metrology/quantity.js";
import { Absent, Count, Quantity } from "../../../src/metrology/quantity.js";
import { normalSource } from "../../../src/metrology/source.js";
import * as s from "../../../src/statistics/index.js";
import { seededRandom } from "../../../src/statistics/numeric/random.js";

interface Item {
  readonly first: Measured<"cN">;
  readonly second: Measured<"cN">;
  readonly day: Measured<"d">;
  readonly part: string;
  readonly operator: string;
  readonly group: string;
  readonly evidence: ReturnType<typeof rows>;
}

const random = seededRandom(11);
const rows = (line: number) =>
  ({ kind: "rows", file: "units/u01/s1/force.csv", firstLine: line, lastLine: line, columns: ["force_cN"] }) as const;
const rig = normalSource("rig/zero", "Zero of the tester", 0.2, "cN");

/** 4 parts x 3 operators x 2, with a common offset of the rig and noise of each reading. */
const items: readonly Item[] = Array.from({ length: 24 }, (_, i): Item => {
  const level = 45 + 2 * (i % 4) + 0.6 * (Math.floor(i / 4) % 3);
  const reading = (name: string): Quantity<"cN"> =>
    new Quantity(
      level + 0.5 * random.normal(),
      "cN",
      [
        { source: rig, contribution: 0.2 },
        { source: normalSource(`reading/${name}/${i}`, "Noise", 0.05, "cN"), contribution: 0.05 },
      ],
      rows(i + 2),
    );
  return {
    first: reading("first"),
    second: reading("second"),
    day: new Quantity(i, "d", [], rows(i + 2)),
    part: `p${i % 4}`,
    operator: `o${Math.floor(i / 4) % 3}`,
    group: `g${i % 6}`,
    evidence: rows(i + 2),
  };
});

const first = (item: Item): Measured<"cN"> => item.first;
const second = (item: Item): Measured<"cN"> => item.second;
const by = { group: (item: Item) => item.group };

const forms: Readonly<Record<string, () => unknown>> = {
  mean: () => s.mean(items, first),
  spread: () => s.spread(items, first),
  median: () => s.median(items, first),
  quantile: () => s.quantile(items, first, { p: 0.9 }),
  mad: () => s.mad(items, first),
  hodgesLehmann: () => s.hodgesLehmann(items, first),
  algorithmA: () => s.algorithmA(items, first),
  moments: () => s.moments(items, first),
  autocorrelation: () => s.autocorrelation(items, first),
  harrellDavis: () => s.harrellDavis(items, first, { p: 0.5 }),
  shapiroWilk: () => s.shapiroWilk(items, first),
  andersonDarling: () => s.andersonDarling(items, first),
  meanInterval: () => s.meanInterval(items, first),
  sdInterval: () => s.sdInterval(items, first),
  quantileInterval: () => s.quantileInterval(items, first),
  proportionInterval: () => s.proportionInterval(items, (item) => item.part === "p1"),
  toleranceInterval: () => s.toleranceInterval(items, first),
  heldShare: () => s.heldShare(items, first),
  predictionInterval: () => s.predictionInterval(items, first, { further: 3 }),
  bootstrapInterval: () =>
    s.bootstrapInterval(items, first, { statistic: (v) => Math.max(...v), draws: 100, method: "percentile" }),
  betweenSd: () => s.betweenSd(items, first, { repeatSd: 0.5, repeats: 3 }),
  grubbs: () => s.grubbs(items, first),
  grubbsPair: () => s.grubbsPair(items, first, { draws: 1000 }),
  dixon: () => s.dixon(items, first),
  generalisedEsd: () => s.generalisedEsd(items, first),
  hampel: () => s.hampel(items, first),
  tukeyFences: () => s.tukeyFences(items, first),
  cochran: () => s.cochran(items, first, by),
  mandel: () => s.mandel(items, first, by),
  oneWay: () => s.oneWay(items, first, by),
  twoWay: () =>
    s.twoWay(items, first, { rows: (item) => item.part, columns: (item) => item.operator }, { interaction: "keep" }),
  gaugeStudy: () =>
    s.gaugeStudy(
      items,
      first,
      { part: (item) => item.part, operator: (item) => item.operator },
      { tolerance: 20, interaction: "keep" },
    ),
  nested: () => s.nested(items, first, { part: (item) => item.part, operator: (item) => item.operator }),
  precision: () => s.precision(items, first, by),
  intraclass: () =>
    s.intraclass(items.slice(0, 12), first, { target: (item) => item.part, rater: (item) => item.operator }),
  reml: () => s.reml(items, first, { part: (item) => item.part, operator: (item) => item.operator }),
  factorEffects: () => s.factorEffects(items, first, { part: (item) => item.part, operator: (item) => item.operator }),
  blandAltman: () => s.blandAltman(items, first, second),
  ratioAgreement: () => s.ratioAgreement(items, first, second),
  deming: () => s.deming(items, first, second),
  passingBablok: () => s.passingBablok(items, first, second),
  concordance: () => s.concordance(items, first, second),
  kendall: () => s.kendall(items, first, second),
  spearman: () => s.spearman(items, first, second),
  pairedT: () => s.pairedT(items, first, second),
  equivalence: () => s.equivalence(items, first, second, { margin: 1 }),
  signedRank: () => s.signedRank(items, first, second),
  twoSampleT: () => s.twoSampleT(items.slice(0, 10), items.slice(10), first),
  mannWhitney: () => s.mannWhitney(items.slice(0, 10), items.slice(10), first),
  kolmogorovSmirnov: () => s.kolmogorovSmirnov(items.slice(0, 10), items.slice(10), first),
  shiftFunction: () => s.shiftFunction(items.slice(0, 10), items.slice(10), first, { draws: 100 }),
  individuals: () => s.individuals(items, first),
  subgroupChart: () => s.subgroupChart(items, first, by),
  ewma: () => s.ewma(items, first, { target: 48, sigma: 1 }),
  cusum: () => s.cusum(items, first, { target: 48, sigma: 1 }),
  runRules: () => s.runRules(items, first, { centre: 48, sigma: 1, draws: 100 }),
  drift: () => s.drift(items, (item) => item.day, first),
  changePoint: () => s.changePoint(items, first, { draws: 99 }),
  runsTest: () => s.runsTest(items, first),
  ecdf: () => s.ecdf(items, first),
  pollingMixture: () => s.pollingMixture(items, first, { period: 8 }),
};

/** Every quantity and absence in a result. */
function results(value: unknown): readonly (Quantity | Absent | Count)[] {
  if (value instanceof Quantity || value instanceof Absent || value instanceof Count) return [value];
  return typeof value === "object" && value !== null ? Object.values(value).flatMap(results) : [];
}

test("every lifted form of the index is tried here", () => {
  const lifted = Object.keys(s).filter((name) => `${name}Kernel` in s);
  expect(Object.keys(forms).sort()).toEqual(lifted.sort());
});

for (const [name, form] of Object.entries(forms)) {
  test(`${name} gives quantities with evidence from its items`, () => {
    const found = results(form());
    const quantities = found.filter((result) => result instanceof Quantity);
    expect(quantities.length).toBeGreaterThan(0);
    for (const quantity of found)
      expect(quantity.evidence.kind === "step" && quantity.evidence.inputs.length).toBeGreaterThan(0);
    for (const quantity of quantities) expect(["1", "cN", "cN²", "d", "cN/d"]).toContain(quantity.symbol);
  });
}

test("what the rig shares reaches locations whole and differences not at all", () => {
  const ofRig = (measured: Measured): number =>
    measured.absent ? NaN : (measured.components.find((c) => c.source.id === "rig/zero")?.contribution ?? 0);
  expect(ofRig(s.hodgesLehmann(items, first))).toBeCloseTo(0.2, 9);
  expect(ofRig(s.toleranceInterval(items, first).upper)).toBeCloseTo(0.2, 9);
  expect(ofRig(s.predictionInterval(items, first).lower)).toBeCloseTo(0.2, 9);
  expect(ofRig(s.blandAltman(items, first, second).bias.value)).toBeCloseTo(0, 9);
  expect(ofRig(s.pairedT(items, first, second).upper)).toBeCloseTo(0, 9);
  const fit = s.reml(items, first, { part: (item) => item.part });
  expect(ofRig(fit.mean)).toBeCloseTo(0.2, 6);
  const [part] = fit.components as readonly { readonly sd: Measured<"cN"> }[];
  expect(ofRig(part!.sd)).toBeCloseTo(0, 6);
});

test("weights that a kernel states agree with differences", () => {
  const tolerance = s.toleranceInterval(items, first).upper;
  const plain = s.lift((v: readonly number[]) => s.toleranceIntervalKernel(v).upper, "same")(items, first);
  const prediction = s.predictionInterval(items, first, { noiseSd: 0.5 }).upper;
  const plainPrediction = s.lift(
    (v: readonly number[]) => s.predictionIntervalKernel(v, { noiseSd: 0.5 }).upper,
    "same",
  )(items, first);
  for (const [exact, differences] of [
    [tolerance, plain],
    [prediction, plainPrediction],
    [s.spread(items, first).sd, s.lift((v: readonly number[]) => s.spreadKernel(v).sd, "same")(items, first)],
  ] as const) {
    if (exact.absent || differences.absent) throw new Error("absent");
    expect(exact.components).toHaveLength(differences.components.length);
    for (const { source, contribution } of exact.components) {
      const other = differences.components.find((c) => c.source.id === source.id)!;
      expect(contribution).toBeCloseTo(other.contribution, 4);
    }
  }
});

test("places are those of the items given, with absent ones counted", () => {
  const outlier = new Quantity(90, "cN", [], rows(99));
  const list = [new Absent<"cN">("cN", "no contact", rows(1)), ...items.slice(0, 8).map(first), outlier];
  expect(s.grubbs(list, (q) => q).suspect).toBe(9);
  expect(s.hampel(list, (q) => q).outside).toEqual([9]);
});
