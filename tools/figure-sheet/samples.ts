import { budgetBars } from "../../src/figures/kinds/budget-bars.js";
import { budgetGroups } from "../../src/figures/kinds/budget-groups.js";
import { keyboardMap } from "../../src/figures/kinds/keyboard-map.js";
import { evidenceStep } from "../../src/metrology/evidence.js";
import { boundedSource, observedSource, type Component } from "../../src/metrology/source.js";
import { comparisonSamples } from "./sample-comparison.js";
import { Absent, Quantity, type Measured } from "../../src/metrology/quantity.js";
import type { Chart } from "../../src/figures/chart.js";
import { curveFamily } from "../../src/figures/kinds/curve-family.js";
import { latencyDistribution } from "../../src/figures/kinds/latency-distribution.js";
import { quantileStrip } from "../../src/figures/kinds/quantile-strip.js";
import { smallMultiples } from "../../src/figures/kinds/small-multiples.js";
import { forceCurve } from "../../src/figures/kinds/force-curve.js";
import { intervalChart } from "../../src/figures/kinds/interval-chart.js";
import { measured, sampleKeys, scatter } from "./sample-keys.js";
import { sampleConnection } from "./sample-latency.js";

/** A chart of the sheet, with the question it answers. */
export interface Sample {
  readonly id: string;
  readonly question: string;
  readonly chart: Chart;
}

const dataSheet = {
  min: { value: 40, symbol: "cN" },
  max: { value: 55, symbol: "cN" },
  nominal: { value: 47, symbol: "cN" },
  source: "data sheet, revision 3",
} as const;

const displacement = { label: "Displacement", symbol: "mm" } as const;
const force = { label: "Force", symbol: "cN" } as const;

function latencies(): readonly { unit: string; connection: string; latency: Measured<"ms"> }[] {
  const { normal } = scatter(21);
  return Array.from({ length: 28 }, (_, index) => {
    const usb = index < 17;
    const unit = `u${String(index + 1).padStart(2, "0")}`;
    const value = usb ? 7 + 2.2 * Math.abs(normal()) : 15 + 5 * Math.abs(normal());
    return { unit, connection: usb ? "usb" : "bluetooth", latency: measured(value, "ms", 0.5, unit) };
  });
}

/** An invented latency whose systematic terms are those of every other. */
function sampleLatency(ms: number, scatter: number): Quantity<"ms"> {
  const parts = [
    ["Scatter of presses", scatter],
    ["Zero offset between the tester's touch and contact", 0.6],
    ["Baseline detector against film", 0.43],
    ["Pre-travel at plunger speed against tester speed (assumed)", 0.25],
    ["Scatter of the baseline", 0.23],
    ["Readers' own offset", 0.2],
    ["Plunger speed over the pre-travel", 0.17],
  ] as const;
  const components = parts.map(([label, u]): Component => {
    return { source: boundedSource(`${label}/${u}`, label, u * Math.sqrt(3), "ms"), contribution: u };
  });
  return new Quantity(ms, "ms", components, evidenceStep("sample", []));
}

/** An invented mean of a unit with a budget of several sources. */
function sampleMean(): Quantity<"cN"> {
  const part = (id: string, label: string, u: number, contribution: number): Component => ({
    source: boundedSource(id, label, u * Math.sqrt(3), "cN"),
    contribution,
  });
  return new Quantity(
    45.7,
    "cN",
    [
      { source: observedSource("between", "Between the unit's keys", 0.92, "cN", 7), contribution: 0.92 },
      part("span", "Span of the force tester", 0.14, 0.14),
      part("zero", "Zero of the force tester", 0.15, -0.15),
      part("repeat", "Repeatability of the cycles", 0.11, 0.11),
      part("position", "Keys chosen against all keys", 0.3, 0.3),
      part("resolution", "Resolution of the force readings", 0.03, 0.03),
    ],
    evidenceStep("invented for the sheet of figures", []),
  );
}

/** Every figure at least once, from invented values. */
export function samples(): readonly Sample[] {
  const keys = sampleKeys();
  return [
    {
      id: "force-curve",
      question: "Where on its way does the representative key actuate, reset and bottom out?",
      chart: forceCurve(keys, { key: "KeyF" }),
    },
    {
      id: "force-curve-linear",
      question: "How does the force of a linear key grow?",
      chart: forceCurve(sampleKeys("linear"), { key: "KeyF", others: false }),
    },
    {
      id: "curve-family",
      question: "Is one key heavier than its neighbours?",
      chart: curveFamily(keys, (key) => key.cycles[1]!.curve.press.filter(([mm]) => mm < 3.5), {
        x: displacement,
        y: force,
        highlight: "KeyP",
      }),
    },
    {
      id: "small-multiples",
      question: "Which units share one shape of curve?",
      chart: smallMultiples(
        [...keys, { ...keys[0]!, key: "KeyQ with a long name", cycles: [] }],
        (key) => key.cycles[1]?.curve.press.filter(([mm]) => mm < 3.5) ?? [],
        {
          x: displacement,
          y: force,
          reference: { label: "KeyF", points: keys[2]!.cycles[1]!.curve.press.filter(([mm]) => mm < 3.5) },
        },
      ),
    },
    {
      id: "quantile-strip",
      question: "Where does this unit's latency lie among all units of its kind?",
      chart: quantileStrip(latencies(), (unit) => unit.latency, {
        of: "Latency",
        group: (unit) => unit.connection,
        groupNoun: "connection",
        noun: "unit",
        highlight: "u07",
      }),
    },
    {
      id: "latency-distribution",
      question: "How long does a press take to arrive over each connection?",
      chart: latencyDistribution([
        sampleConnection("usb", 8.2, 0.9, 3),
        sampleConnection("receiver", 11.4, 1.6, 4),
        sampleConnection("bluetooth", 19.5, 4.2, 5, true),
      ]),
    },
    {
      id: "key-intervals",
      question: "Does every measured key actuate inside the data sheet's limits?",
      chart: intervalChart(keys, (key) => key.actuationForce, { limits: dataSheet, of: "Actuation force" }),
    },
    {
      id: "unit-intervals",
      question: "How far do the units' keys travel?",
      chart: intervalChart(
        [
          { unit: "u01", travel: measured(3.61, "mm", 0.02, "u01") },
          {
            unit: "u02 with a very long name that nobody can print in full",
            travel: measured(3.72, "mm", 0.06, "u02"),
          },
          { unit: "u03", travel: new Absent("mm", "the record ends before bottom-out") },
          { unit: "u04", travel: measured(3.2, "mm", 0.02, "u04") },
        ],
        (unit) => unit.travel,
        {
          of: "Total travel",
          limits: [
            {
              min: { value: 1.5, symbol: "mm" },
              max: { value: 6, symbol: "mm" },
              source: "ISO 9241-410:2008, Annex B",
            },
            { nominal: { value: 3.6, symbol: "mm" }, force: "typical", source: "data sheet" },
          ],
          sort: "value",
        },
      ),
    },
    {
      id: "keyboard-map",
      question: "Does the place of a key decide its force?",
      chart: keyboardMap(keys, (key) => key.actuationForce, {
        of: "Actuation force",
        limits: { ...dataSheet, max: { value: 50, symbol: "cN" } },
      }),
    },
    {
      id: "budget-groups",
      question: "What makes each latency uncertain?",
      chart: budgetGroups(
        [
          { connection: "usb", latency: sampleLatency(6.1, 0.36) },
          { connection: "receiver", latency: sampleLatency(7.9, 0.34) },
          { connection: "bluetooth", latency: sampleLatency(11.8, 0.85) },
        ],
        (each) => each.latency,
      ),
    },
    {
      id: "budget-bars",
      question: "What makes the uncertainty of the unit's mean force?",
      chart: budgetBars(sampleMean()),
    },
    ...comparisonSamples(),
  ];
}
