import { expect, test } from "vitest";
import { seededRandom } from "../../src/statistics/numeric/random.js";
import { remlDesign } from "../../src/statistics/variance/reml-design.js";
import { fitReml } from "../../src/statistics/variance/reml-fit.js";
import { remlPoint } from "../../src/statistics/variance/reml-likelihood.js";

const random = seededRandom(77);

/** An unbalanced crossed layout with some variances at zero and some cells empty, far from the origin. */
function layout(): { y: number[]; factors: Record<string, string[]> } {
  const [a, b, n] = [3 + random.below(6), 3 + random.below(5), 12 + random.below(40)];
  const [sdA, sdB, sd] = [
    random.below(3) * random.uniform(),
    random.below(3) * random.uniform(),
    0.01 + 2 * random.uniform(),
  ];
  const effectA = Array.from({ length: a }, () => sdA * random.normal());
  const effectB = Array.from({ length: b }, () => sdB * random.normal());
  const places = Array.from({ length: n }, () => [random.below(a), random.below(b)] as const);
  return {
    y: places.map(([i, j]) => 1000 + effectA[i]! + effectB[j]! + sd * random.normal()),
    factors: { unit: places.map(([i]) => `u${i}`), operator: places.map(([, j]) => `o${j}`) },
  };
}

test("the search ends where no variance can raise the likelihood, on 200 unbalanced layouts", () => {
  for (let k = 0; k < 200; k++) {
    const { y, factors } = layout();
    const { variances, point } = fitReml(remlDesign(y, factors, {}));
    variances.forEach((variance, i) => {
      const slope = point.score[i]! / Math.sqrt(point.information[i]![i]!);
      if (variance > 0) expect(Math.abs(slope), `layout ${k}, variance ${i}`).toBeLessThan(1e-5);
      else expect(slope, `layout ${k}, variance ${i}`).toBeLessThan(1e-6);
    });
  }
});

test("score and observed information are the derivatives of the deviance", () => {
  const { y, factors } = layout();
  const design = remlDesign(y, factors, {});
  const at = [0.21, 0.13, 0.34];
  const moved = (i: number, by: number) =>
    remlPoint(
      design,
      at.map((v, k) => (k === i ? v + by : v)),
    );
  const { score, observed } = remlPoint(design, at);
  at.forEach((_, i) => {
    const step = 1e-5;
    const slope = (moved(i, step).deviance - moved(i, -step).deviance) / (2 * step);
    expect(score[i]! * -2).toBeCloseTo(slope, 4);
    at.forEach((__, j) => {
      const bend = (moved(i, step).score[j]! - moved(i, -step).score[j]!) / (2 * step);
      expect(Math.abs(observed[i]![j]! + bend)).toBeLessThan(1e-5 * Math.max(1, Math.abs(bend)));
    });
  });
});
