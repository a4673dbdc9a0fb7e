import { lift } from "../lift/lift.js";
import { checkChoice, checkOptions, checkPositive, checkValues, checkWhole } from "../numeric/guards.js";
import { seededRandom } from "../numeric/random.js";

/** The rules by what they see; each takes standardised values up to a place and says whether it is broken there. */
const rules = {
  "1 beyond 3 sigma": (z: readonly number[], i: number) => Math.abs(z[i]!) > 3,
  "9 on one side": (z: readonly number[], i: number) => onOneSide(z, i, 9, 9, 0),
  "6 steadily up or down": (z: readonly number[], i: number) => i >= 5 && steady(z, i, 6),
  "14 alternating": (z: readonly number[], i: number) => i >= 13 && alternating(z, i, 14),
  "2 of 3 beyond 2 sigma": (z: readonly number[], i: number) => Math.abs(z[i]!) > 2 && onOneSide(z, i, 3, 2, 2),
  "4 of 5 beyond 1 sigma": (z: readonly number[], i: number) => Math.abs(z[i]!) > 1 && onOneSide(z, i, 5, 4, 1),
  "15 within 1 sigma": (z: readonly number[], i: number) => i >= 14 && last(z, i, 15).every((v) => Math.abs(v) < 1),
  "8 outside 1 sigma": (z: readonly number[], i: number) => i >= 7 && last(z, i, 8).every((v) => Math.abs(v) > 1),
} as const;

export type RunRule = keyof typeof rules;

/** Names of the run rules. */
export const runRuleNames = Object.freeze(Object.keys(rules) as RunRule[]);

export interface RunRulesOptions {
  /** Centre line, in the unit of the values. */
  readonly centre: number;
  /** Sd of a single value, above 0. */
  readonly sigma: number;
  /** Which rules; default the first four of the names. */
  readonly rules?: readonly RunRule[];
  /** Number of in-control series simulated for the false-alarm probability, at least 100; default 2000. */
  readonly draws?: number;
  /** Seed of the simulation; default 1. */
  readonly seed?: number;
}

export interface RunRules {
  readonly signals: readonly { readonly rule: RunRule; readonly at: number }[];
  /** Probability that a series of this length in control, normal with known centre and sigma, breaks any of the rules. */
  readonly falseAlarm: number;
  readonly n: number;
}

/**
 * Run rules of a control chart: each rule broken, at the place where it is first complete, and the probability that a series in
 * control of the same length breaks any (seeded simulation), so that a page can control its claims.
 * @param values at least one finite number in the order of time
 * @param options centre; sigma; rules: default the first four; draws: default 2000; seed: default 1
 * @throws Undetermined on no values; RangeError on an unknown rule and on options out of range
 * Source: Nelson, Journal of Quality Technology 16 (1984) 237.
 */
export function runRulesKernel(
  values: readonly number[],
  options: RunRulesOptions = { centre: NaN, sigma: NaN },
): RunRules {
  checkOptions(options, ["centre", "sigma", "rules", "draws", "seed"], "runRules");
  const { centre, sigma, rules: wanted = runRuleNames.slice(0, 4), draws = 2000, seed = 1 } = options;
  if (!Number.isFinite(centre)) throw new RangeError(`the centre of the run rules is ${centre}; it must be finite`);
  checkPositive(sigma, "sigma");
  checkWhole(draws, 100, "draws");
  wanted.forEach((rule) => checkChoice(rule, runRuleNames, "a run rule"));
  checkValues(values, 1, "run rules");
  const random = seededRandom(seed);
  let alarms = 0;
  for (let draw = 0; draw < draws; draw++) {
    const z = Array.from({ length: values.length }, random.normal);
    if (z.some((_, i) => wanted.some((rule) => rules[rule](z, i)))) alarms++;
  }
  return {
    signals: signalsOf(
      values.map((value) => (value - centre) / sigma),
      wanted,
    ),
    falseAlarm: alarms / draws,
    n: values.length,
  };
}

/** Each rule at the places where it becomes broken; a run that goes on is told once. */
function signalsOf(z: readonly number[], wanted: readonly RunRule[]): readonly { rule: RunRule; at: number }[] {
  return wanted
    .flatMap((rule) => {
      let before = false;
      return z.flatMap((_, at) => {
        const broken = rules[rule](z, at);
        const starts = broken && (!before || rule === "1 beyond 3 sigma");
        before = broken;
        return starts ? [{ rule, at }] : [];
      });
    })
    .sort((a, b) => a.at - b.at);
}

function last(z: readonly number[], i: number, length: number): readonly number[] {
  return z.slice(i + 1 - length, i + 1);
}

function onOneSide(z: readonly number[], i: number, length: number, least: number, beyond: number): boolean {
  const side = Math.sign(z[i]!);
  if (side === 0) return false;
  const seen = z.slice(Math.max(0, i + 1 - length), i + 1);
  return seen.filter((v) => v * side > beyond).length >= least;
}

function steady(z: readonly number[], i: number, length: number): boolean {
  const seen = last(z, i, length);
  const rising = seen.slice(1).every((v, k) => v > seen[k]!);
  return rising || seen.slice(1).every((v, k) => v < seen[k]!);
}

function alternating(z: readonly number[], i: number, length: number): boolean {
  const seen = last(z, i, length);
  const steps = seen.slice(1).map((v, k) => Math.sign(v - seen[k]!));
  return steps.every((step, k) => step !== 0 && (k === 0 || step === -steps[k - 1]!));
}

/** Run rules over measured values in the order of the items. */
export const runRules = lift(
  runRulesKernel,
  { signals: [{ rule: "text", at: "position" }], falseAlarm: "statistic", n: "count" },
  { name: "run rules" },
);
