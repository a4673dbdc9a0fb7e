import tCdf from "@stdlib/stats-base-dists-t-cdf";
import { expect, test } from "vitest";
import {
  Quantity,
  boundedSource,
  coverageFactor,
  covariance,
  derive,
  divisorOf,
  effectiveDof,
  evidenceStep,
  expand,
  isQuantity,
  linear,
  normalSource,
  observedSource,
  observedTogether,
  secondOrderUncertainty,
} from "../../src/metrology/index.js";
import type { Measured } from "../../src/metrology/index.js";
import { expectPublished, publishedEntry } from "../reference/load.js";

const nowhere = evidenceStep("published example", []);
const file = "gum-examples.json";

function present<S extends string>(measured: Measured<S>): Quantity<S> {
  if (!isQuantity(measured)) throw new Error(measured.reason);
  return measured;
}

test("JCGM 100 H.1: the end gauge, its budget, degrees of freedom and expanded uncertainty", () => {
  const entry = publishedEntry(file, "gum-h1-end-gauge");
  const { values, u, df, dComponents } = entry.input as unknown as {
    values: Record<string, number>;
    u: Record<string, number>;
    df: Record<string, number>;
    dComponents: Record<string, { u_nm: number; df: number }>;
  };
  const parts = Object.entries(dComponents).map(([name, part]) => observedSource(name, name, part.u_nm, "nm", part.df));
  const d = new Quantity(
    values["d_nm"]!,
    "nm",
    parts.map((source) => ({ source, contribution: source.u })),
    nowhere,
  );
  expectPublished(entry, "uD_nm", d.u);
  // The guide computes with u(d) rounded to 9.7 nm; the full number gives 25.45.
  expectPublished(entry, "nuD", effectiveDof(d) * (9.7 / d.u) ** 4);

  const one = (id: string, value: number, standard: number, dof = Infinity, symbol = "1"): Quantity =>
    new Quantity(
      value,
      symbol,
      [{ source: normalSource(id, id, standard, symbol, dof), contribution: standard }],
      nowhere,
    );
  const ls = one("ls", values["ls_nm"]!, u["ls_nm"]!, df["ls"]!, "nm");
  const dAlpha = one("dAlpha", 0, u["dAlpha_perC"]!, df["dAlpha"]!);
  const theta = one("theta", values["theta_C"]!, u["theta_C"]!);
  const alphaS = one("alphaS", values["alphaS_perC"]!, u["alphaS_perC"]!);
  const dTheta = one("dTheta", 0, u["dTheta_C"]!, df["dTheta"]!);
  const l = present(
    derive(
      [ls, d, dAlpha, theta, alphaS, dTheta],
      ([length, shift, dA, th, aS, dT]) => length + shift - length * (dA * th + aS * dT),
      "nm",
    ),
  );
  expectPublished(entry, "l_nm", l.value);
  const contribution = (id: string): number => Math.abs(l.components.find((c) => c.source.id === id)!.contribution);
  expectPublished(entry, "contributionLs_nm", contribution("ls"));
  expectPublished(entry, "contributionD_nm", Math.hypot(...parts.map((part) => contribution(part.id))));
  expectPublished(entry, "contributionDAlpha_nm", contribution("dAlpha"));
  expectPublished(entry, "contributionDTheta_nm", contribution("dTheta"));
  expectPublished(entry, "uc_nm", l.u);
  expectPublished(entry, "ucUnrounded_nm", l.u);
  const { U, k, dof } = expand(l, 0.99);
  expectPublished(entry, "nuEff", dof);
  expectPublished(entry, "nuEffTruncated", Math.floor(dof));
  expectPublished(entry, "t99_16", k);
  expectPublished(entry, "U99_nm", U);

  const second = secondOrderUncertainty(
    [values["ls_nm"]!, values["d_nm"]!, 0, values["theta_C"]!, values["alphaS_perC"]!, 0],
    [u["ls_nm"]!, u["d_nm"]!, u["dAlpha_perC"]!, u["theta_C"]!, u["alphaS_perC"]!, u["dTheta_C"]!],
    ([length, shift, dA, th, aS, dT]) => length! + shift! - length! * (dA! * th! + aS! * dT!),
  );
  expect(second.first, "u(d) is 9.7 nm here and 9.68 nm there").toBeCloseTo(l.u, 1);
  expectPublished(entry, "ucSecondOrder_nm", second.full);
});

test("JCGM 100 H.1.3 and 4.3: half-widths become standard uncertainties by their distribution", () => {
  const entry = publishedEntry(file, "gum-h1-type-b");
  expectPublished(entry, "rect_1e-6", boundedSource("a", "a", 1e-6, "1").u);
  expectPublished(entry, "rect_0.05", boundedSource("a", "a", 0.05, "1").u);
  expectPublished(entry, "arcsine_0.5", boundedSource("a", "a", 0.5, "1", "arcsine").u);
  expectPublished(entry, "triangular_1", 1 / divisorOf("triangular"));
});

test("JCGM 100 H.2: resistance, reactance and impedance carry the correlations of what was observed together", () => {
  const entry = publishedEntry(file, "gum-h2-impedance");
  const readings = entry.input as Record<string, number[]>;
  const [v, i, phi] = observedTogether("h2", [
    { label: "V", symbol: "V", readings: readings["V_volt"]!, evidence: nowhere },
    { label: "I", symbol: "mA", readings: readings["I_milliampere"]!, evidence: nowhere },
    { label: "phi", symbol: "rad", readings: readings["phi_radian"]!, evidence: nowhere },
  ]) as [Quantity, Quantity, Quantity];
  const correlation = (a: Quantity, b: Quantity): number => covariance(a, b) / (a.u * b.u);
  expectPublished(entry, "meanV", v.value);
  expectPublished(entry, "meanI_mA", i.value);
  expectPublished(entry, "meanPhi", phi.value);
  expectPublished(entry, "uV", v.u);
  expectPublished(entry, "uI_mA", i.u);
  expectPublished(entry, "uPhi", phi.u);
  expectPublished(entry, "rVI", correlation(v, i));
  expectPublished(entry, "rVphi", correlation(v, phi));
  expectPublished(entry, "rIphi", correlation(i, phi));
  const r = present(derive([v, i, phi], ([V, I, p]) => (V / (I / 1000)) * Math.cos(p), "ohm"));
  const x = present(derive([v, i, phi], ([V, I, p]) => (V / (I / 1000)) * Math.sin(p), "ohm"));
  const z = present(derive([v, i], ([V, I]) => V / (I / 1000), "ohm"));
  expectPublished(entry, "R", r.value);
  expectPublished(entry, "X", x.value);
  expectPublished(entry, "Z", z.value);
  for (const suffix of ["", "exact"]) {
    expectPublished(entry, `uR${suffix}`, r.u);
    expectPublished(entry, `uZ${suffix}`, z.u);
    expectPublished(entry, `rRX${suffix}`, correlation(r, x));
    expectPublished(entry, `rRZ${suffix}`, correlation(r, z));
    expectPublished(entry, `rXZ${suffix}`, correlation(x, z));
  }
  expectPublished(entry, "uX", x.u);
  expect(effectiveDof(r), "all inputs share four degrees of freedom").toBeCloseTo(4, 8);
});

test("JCGM 100 H.4: the activity from counting rates that share their background", () => {
  const entry = publishedEntry(file, "gum-h4-activity");
  const input = entry.input as Record<string, number[]> & Record<string, number>;
  const lambda = input["lambda_perMin"] as unknown as number;
  const live = input["T0_min"] as unknown as number;
  const net = (counts: number[], times: number[]): number[] =>
    counts.map((c, n) => (c / live - (input["cB"] as number[])[n]! / live) * Math.exp(lambda * times[n]!));
  const [rx, rs] = observedTogether("h4", [
    { label: "R_x", symbol: "1/min", readings: net(input["cX"]!, input["tX_min"]!), evidence: nowhere },
    { label: "R_s", symbol: "1/min", readings: net(input["cS"]!, input["tS_min"]!), evidence: nowhere },
  ]) as [Quantity, Quantity];
  expectPublished(entry, "meanRx", rx.value);
  expectPublished(entry, "meanRs", rs.value);
  expectPublished(entry, "uRx", rx.u);
  expectPublished(entry, "uRs", rs.u);
  expectPublished(entry, "rRxRs", covariance(rx, rs) / (rx.u * rs.u));
  // The second approach of H.4.3: one ratio a pair, so that the correlation shows in their scatter.
  const [x, s] = [net(input["cX"]!, input["tX_min"]!), net(input["cS"]!, input["tS_min"]!)];
  const ratios = { label: "R", symbol: "1", readings: x.map((rate, n) => rate / s[n]!), evidence: nowhere };
  const [ratio] = observedTogether("h4-ratio", [ratios]) as [Quantity];
  expectPublished(entry, "meanRatio", ratio.value);
  expectPublished(entry, "uRatio", ratio.u);
  const number = (name: string): number => input[name] as unknown as number;
  const given = (id: string, value: number, u: number, symbol: string): Quantity =>
    new Quantity(value, symbol, [{ source: normalSource(id, id, u, symbol), contribution: u }], nowhere);
  const activity = present(
    derive(
      [
        given("A_S", number("AS_BqPerG"), number("uAS"), "Bq/g"),
        given("m_S", number("mS_g"), number("umS"), "g"),
        given("m_x", number("mX_g"), number("umX"), "g"),
        rx,
        rs,
      ],
      ([a, ms, mx, x, s]) => (a * ms * x) / (mx * s),
      "Bq/g",
    ),
  );
  expectPublished(entry, "Ax_BqPerG", activity.value);
  expectPublished(entry, "uAx_BqPerG", activity.u);
});

test("JCGM 100 Table G.2: coverage factors of Student's distribution", () => {
  const entry = publishedEntry(file, "gum-g2-t");
  const { nu, p } = entry.input as { nu: number[]; p: number[] };
  for (const level of p) {
    const factors = nu.map((dof) => coverageFactor(dof, level));
    expectPublished(entry, `t_${level}`, factors);
    expectPublished(entry, `t8_${level}`, factors);
  }
  expect(coverageFactor(Infinity, 0.95)).toBeCloseTo(1.96, 3);
});

test("the coverage factor inverts the distribution function", () => {
  for (const dof of [1, 2.9, 7, 40]) expect(tCdf(coverageFactor(dof), Math.floor(dof))).toBeCloseTo(0.975, 12);
});

test("the mean of eight does not divide a shared source by the square root of eight, and a difference cancels it", () => {
  const span = normalSource("rig/span", "Span", 0.2, "cN");
  const eight = Array.from({ length: 8 }, (_, i) => {
    const own = observedSource(`key/${i}`, "Scatter", 0.4, "cN", 4);
    return new Quantity(
      50 + i,
      "cN",
      [
        { source: span, contribution: 0.2 },
        { source: own, contribution: 0.4 },
      ],
      nowhere,
    );
  });
  const mean = linear(
    eight,
    eight.map(() => 1 / 8),
    "mean of 8 keys",
  );
  expect(mean.u).toBeCloseTo(Math.hypot(0.2, 0.4 / Math.sqrt(8)), 12);
  expect(linear([eight[0]!, eight[1]!], [1, -1], "difference").u).toBeCloseTo(0.4 * Math.SQRT2, 12);
});
