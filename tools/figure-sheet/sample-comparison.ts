import type { Sample } from "./samples.js";
import { agreementChart } from "../../src/figures/kinds/agreement-chart.js";
import { controlChart } from "../../src/figures/kinds/control-chart.js";
import { coverageStrip } from "../../src/figures/kinds/coverage-strip.js";
import { effortCurve } from "../../src/figures/kinds/effort-curve.js";
import { meritChange } from "../../src/figures/kinds/merit-change.js";
import { rankedIntervals } from "../../src/figures/kinds/ranked-intervals.js";
import { rankShift } from "../../src/figures/kinds/rank-shift.js";
import { regressionChart } from "../../src/figures/kinds/regression-chart.js";
import { varianceBars } from "../../src/figures/kinds/variance-bars.js";
import { Absent, type Measured } from "../../src/metrology/quantity.js";
import { measured, scatter } from "./sample-keys.js";

interface Retested {
  readonly unit: string;
  readonly before: Measured<"cN">;
  readonly after: Measured<"cN">;
}

function retested(): readonly Retested[] {
  const { normal } = scatter(31);
  return Array.from({ length: 14 }, (_, index) => {
    const unit = `u${String(index + 1).padStart(2, "0")}`;
    const truth = 45 + 6 * normal();
    return {
      unit,
      before:
        index === 5
          ? new Absent("cN", "returned before the retest")
          : measured(truth + normal(), "cN", 0.9, `${unit}/1`),
      after: measured(truth + 1.4 + 1.1 * normal() + (index === 8 ? 4.5 : 0), "cN", 0.6, `${unit}/2`),
    };
  });
}

const changes = ["yes", "undecided", "no"] as const;

/** Figures that compare methods, units and plans, from invented values. */
export function comparisonSamples(): readonly Sample[] {
  const units = retested();
  const pair = ({ before, after }: Retested): { first: Measured; second: Measured } => ({
    first: before,
    second: after,
  });
  const names = ["keystroke@1", "keystroke@2"] as const;
  const ranks = [5, 1, 2, 3, 4, 6, 7, 7, 9, 10, 11, null] as const;
  const { normal } = scatter(41);
  return [
    {
      id: "agreement",
      question: "By how much does the new method read differently?",
      chart: agreementChart(units, pair, {
        names,
        of: "Actuation force",
        bias: measured(1.6, "cN", 0.45, "bias", 12),
        limits: [measured(-1.9, "cN", 0.75, "lower", 12), measured(5.1, "cN", 0.75, "upper", 12)],
        smallestChange: { value: 3, symbol: "cN" },
      }),
    },
    {
      id: "regression",
      question: "Do both methods put the units on one line?",
      chart: regressionChart(units, pair, {
        x: { label: "Actuation force, keystroke@1" },
        y: { label: "Actuation force, keystroke@2" },
        fit: {
          name: "Deming regression",
          slope: measured(1.03, "1", 0.05, "slope", 11),
          intercept: measured(0.4, "cN", 2.1, "intercept", 11),
          band: Array.from({ length: 40 }, (_, step) => {
            const x = 30 + step;
            const half = 1 + 0.006 * (x - 45) ** 2;
            return { x, low: 0.4 + 1.03 * x - half, high: 0.4 + 1.03 * x + half };
          }),
        },
        name: ["u09"],
      }),
    },
    {
      id: "ranked-intervals",
      question: "Which units cannot be told apart?",
      chart: rankedIntervals(units, (unit) => unit.after, {
        of: "Actuation force",
        noun: "unit",
        brackets: [
          { first: 2, last: 4 },
          { first: 3, last: 7 },
          { first: 8, last: 10 },
          { first: 12, last: 13 },
        ],
      }),
    },
    {
      id: "rank-shift",
      question: "Which ranks does the new method change?",
      chart: rankShift(
        ranks.map((after, index) => ({ unit: `u${String(index + 1).padStart(2, "0")}`, before: index + 1, after })),
        (unit) => ({
          before: unit.before,
          after: unit.after,
          ...(unit.after === null
            ? { reason: "withdrawn" }
            : { change: unit.before === 1 ? ("yes" as const) : ("undecided" as const) }),
        }),
        {
          names,
          groups: {
            before: [
              { from: 1, to: 4 },
              { from: 3, to: 8 },
              { from: 10, to: 12 },
            ],
            after: [
              { from: 1, to: 3 },
              { from: 5, to: 9 },
            ],
          },
        },
      ),
    },
    {
      id: "merit-change",
      question: "Whose merit for an examination hall changes?",
      chart: meritChange(
        units
          .slice(0, 8)
          .map((unit, index) => ({ unit: unit.unit, index, value: 0.35 + 0.08 * index + 0.03 * normal() })),
        ({ unit, index, value }) => ({
          first:
            index === 6
              ? new Absent("1", "latency was not measured under keystroke@1")
              : measured(value, "1", 0.03, `${unit}/merit-1`),
          second: measured(value + (index === 2 ? 0.16 : 0.02), "1", 0.02, `${unit}/merit-2`),
          change: changes[index === 2 ? 0 : index % 2 === 0 ? 1 : 2]!,
        }),
        {
          names,
          purpose: "examination hall",
          grades: [
            { name: "recommended", from: 0.8 },
            { name: "suitable", from: 0.6 },
            { name: "with reservations", from: 0.4 },
            { name: "not suitable", from: 0 },
          ],
        },
      ),
    },
    {
      id: "variance-bars",
      question: "Where does the variance of the actuation force come from?",
      chart: varianceBars(
        [
          { label: "Unit within model", value: 2.1, low: 0.6, high: 9.8 },
          { label: "Key", value: 4.4, low: 2.9, high: 7.1 },
          { label: "Mount", value: 0.7, low: 0.2, high: 2.4 },
          { label: "Operator", value: -0.08, low: null, high: 0.4 },
          { label: "Cycle", value: 0.31, low: 0.26, high: 0.38 },
        ],
        ({ label, value, low, high }) => ({ variance: measured(value, "cN²", 0, label), low, high }),
        { of: "Actuation force" },
      ),
    },
    {
      id: "control-chart",
      question: "Did the tester read the check standard as before?",
      chart: controlChart(
        Array.from({ length: 18 }, (_, index) => ({
          date: new Date(Date.UTC(2026, 0, 5 + 14 * index)).toISOString().slice(0, 10),
          force: measured(50 + 0.25 * normal() + (index > 12 && index < 15 ? 1.5 : 0), "cN", 0.15, `check/${index}`),
        })),
        ({ date, force }) => ({ at: date, value: force }),
        {
          of: "Force on the check standard",
          centre: { value: 50, symbol: "cN" },
          action: { min: { value: 49.1, symbol: "cN" }, max: { value: 50.9, symbol: "cN" } },
          warning: { min: { value: 49.4, symbol: "cN" }, max: { value: 50.6, symbol: "cN" } },
          events: [
            { at: "2026-03-09", label: "calibrated" },
            { at: "2026-08-01", label: "probe replaced" },
          ],
          doubtful: [{ from: "2026-06-22", to: "2026-08-03" }],
        },
      ),
    },
    {
      id: "effort-curve",
      question: "What does another hour on the rig buy?",
      chart: effortCurve(
        [
          {
            label: "more keys",
            points: [1, 2, 4, 8, 12, 16].map((n) => ({
              effort: 6 + 4 * n,
              uncertainty: Math.hypot(3.2 / Math.sqrt(n), 0.5),
              plan: `${n} ${n === 1 ? "key" : "keys"}`,
            })),
          },
          {
            label: "more cycles",
            points: [1, 2, 3, 6, 12].map((n) => ({
              effort: 6 + 4 + 1.5 * n,
              uncertainty: Math.hypot(3.1, 0.9 / Math.sqrt(n)),
              plan: `${n} ${n === 1 ? "cycle" : "cycles"}`,
            })),
          },
        ],
        (way) => way.points,
        { of: "Uncertainty U of the unit's mean force", symbol: "cN", target: { value: 1.2, symbol: "cN" } },
      ),
    },
    {
      id: "coverage-strip",
      question: "Which units has the new method reached?",
      chart: coverageStrip(
        Array.from({ length: 26 }, (_, index) => ({
          unit: `u${String(index + 1).padStart(2, "0")}`,
          state: index < 15 ? "retested" : index < 22 ? "pending" : index < 24 ? "returned" : "withdrawn",
        })),
        (unit) => unit.state,
        { states: ["retested", "pending", "returned", "withdrawn"] },
      ),
    },
  ];
}
