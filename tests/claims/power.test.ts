import { beforeAll, expect, test } from "vitest";
import { adjustClaims } from "../../src/comparison/index.js";
import { factorEffectsKernel, grubbsKernel, pairedTKernel } from "../../src/statistics/index.js";
import { cycleVariation } from "../../tools/simulation/cycle-variation.js";
import { effectSizes } from "../../tools/simulation/effect-sizes.js";
import { keyCurve } from "../../tools/simulation/key-curve.js";
import { keyPositions } from "../../tools/simulation/key-positions.js";
import type { BaseShapeName } from "../../tools/simulation/key-shape.js";
import { baseShapes } from "../../tools/simulation/key-shape.js";
import { keystrokeMethodRaw } from "../../tools/simulation/lab-objects.js";
import { plantedPlaces } from "../../tools/simulation/planted-effects.js";
import { randomFor } from "../../tools/simulation/random.js";
import { smallArchivePlan } from "../../tools/simulation/small-archive.js";
import { truthOf, usualDefinition } from "../../tools/simulation/truth.js";
import { drawUnit } from "../../tools/simulation/unit-truth.js";

/** The tests behind the claims, on the scatter that archives have: sizes without effect, power at the stated sizes. */
const units = 1200;
const keys = keystrokeMethodRaw["keys"] as readonly string[];
const places = keys.map((key) => keyPositions.find((place) => place.key === key)!);
const rows = places.map(({ row }) => row);
const hands = places.map(({ hand }) => hand);
/** Shares that templates/unit-dossier.md gives. */
const shares = { force: 45, travel: 10, row: 35, hand: 10 } as const;

interface Drawn {
  readonly force: readonly number[];
  readonly travel: readonly number[];
}

function draw(shape: BaseShapeName): readonly Drawn[] {
  return Array.from({ length: units }, (_, unit) => {
    const shapes = drawUnit(baseShapes[shape], {}, randomFor(unit, "power", shape));
    const random = randomFor(unit, "cycles", shape);
    const truths = keys.map((key) => truthOf(keyCurve(shapes.get(key)!), usualDefinition).values);
    return {
      force: truths.map(({ actuationForce }) => random.normal(actuationForce!, cycleVariation.forceCn / Math.sqrt(3))),
      travel: truths.map(({ preTravel }) => random.normal(preTravel!, cycleVariation.makeMm / Math.sqrt(3))),
    };
  });
}

function asked({ force, travel }: Drawn): readonly { readonly question: string; readonly p: number; share: number }[] {
  const [row, hand] = factorEffectsKernel(force, { row: rows, hand: hands }).factors;
  return [
    { question: "force", p: grubbsKernel(force).pValue, share: shares.force },
    { question: "travel", p: grubbsKernel(travel).pValue, share: shares.travel },
    { question: "row", p: row!.pValue!, share: shares.row },
    { question: "hand", p: hand!.pValue!, share: shares.hand },
  ];
}

const shareOf = <T>(items: readonly T[], isSo: (item: T) => boolean): number =>
  items.filter(isSo).length / items.length;
const claims = (drawn: Drawn): readonly string[] =>
  adjustClaims(asked(drawn)).flatMap(({ question, adjusted }) => (adjusted <= 0.05 ? [question] : []));

let linear: readonly Drawn[];
let tactile: readonly Drawn[];
beforeAll(() => {
  linear = draw("linearFull");
  tactile = draw("tactileFull");
}, 60_000);

test("without an effect each question claims in about 5 % of units, and all together in at most 6 %", () => {
  const all = [...linear, ...tactile].map(asked);
  for (const question of [0, 1, 2, 3]) {
    const size = shareOf(all, (questions) => questions[question]!.p <= 0.05);
    expect(size).toBeGreaterThan(0.8 * 0.05);
    expect(size).toBeLessThan(1.2 * 0.05);
  }
  expect(shareOf([...linear, ...tactile], (drawn) => claims(drawn).length > 0)).toBeLessThan(1.2 * 0.05);
});

test("a key and a row of the stated sizes are found in well over 90 % of units", () => {
  const { key } = plantedPlaces.outlier_key;
  const odd = tactile.map(({ force, travel }) => ({
    travel,
    force: force.map((value, index) => value + (keys[index] === key ? effectSizes.outlierKeyCn : 0)),
  }));
  expect(shareOf(odd, (drawn) => claims(drawn).includes("force"))).toBeGreaterThan(0.92);
  const { row } = plantedPlaces.unit_position_effect;
  const placed = linear.map(({ force, travel }) => ({
    travel,
    force: force.map((value, index) => value + (rows[index] === row ? effectSizes.unitPositionCn : 0)),
  }));
  expect(shareOf(placed, (drawn) => claims(drawn).includes("row"))).toBeGreaterThan(0.92);
});

test("two readers of the stated offset are told apart by as many presses as a small archive has, and equal ones are not", () => {
  const presses = new Set(smallArchivePlan(1).studies[2]!.readings.map(({ repeat }) => repeat)).size;
  const level = 0.05 / 4;
  const slipShare = 0.06;
  const claimed = (offsetFrames: number, count: number): number => {
    const random = randomFor(1, "readers", offsetFrames, count);
    const slip = (): number => (random.chance(slipShare) ? (random.chance(0.5) ? 1 : -1) : 0);
    const films = Array.from({ length: 2000 }, () =>
      Array.from({ length: count }, () => {
        const phase = random.uniform();
        return Math.ceil(phase + offsetFrames) - Math.ceil(phase) + slip() - slip() + slip() - slip();
      }),
    );
    return shareOf(
      films,
      (frames) =>
        new Set(frames).size > 1 &&
        pairedTKernel(
          frames.map(() => 0),
          frames,
        ).pValue <= level,
    );
  };
  expect(claimed(effectSizes.readerFrames, presses)).toBeGreaterThan(0.96);
  expect(claimed(effectSizes.readerFrames, 28)).toBeLessThan(0.35);
  expect(claimed(0, presses)).toBeLessThan(1.4 * level);
});
