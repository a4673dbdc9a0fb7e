import { expect, test } from "vitest";
import { seededRandom } from "../../src/metrology/random.js";
import type { Profile } from "../../src/keystroke/profile.js";
import { tactileBump } from "../../src/keystroke/tactile-bump.js";
import { method } from "./analytic-curve.js";

const stretch = { fromMm: 0, toMm: 3.5 };

function profileOf(force: (xMm: number) => number, noiseCn = 0, spacing = 0.01, seed = 1): Profile {
  const random = seededRandom(seed);
  for (let i = 0; i < 20; i++) random.uniform();
  const xs = Float64Array.from({ length: Math.round(3.5 / spacing) + 1 }, (_, i) => i * spacing);
  return {
    xMm: xs,
    forceCn: xs.map((x) => force(x) + noiseCn * random.normal()),
    retreatRows: 0,
    retreatMm: 0,
    spacingMm: spacing,
  };
}

const gauss = (x: number, at: number, width: number): number => Math.exp(-(((x - at) / width) ** 2));
const rise = (x: number): number => 40 * (1 - Math.exp(-x / 0.03));

test("peak and valley are the vertices of local parabolas, their difference the prominence", () => {
  const search = tactileBump(
    profileOf((x) => 40 + 20 * Math.cos(Math.PI * (x - 0.5))),
    { fromMm: 0, toMm: 2.4 },
    method,
    0.01,
  );
  expect(search.bump!.peak.xMm).toBeCloseTo(0.5, 3);
  expect(search.bump!.valley.xMm).toBeCloseTo(1.5, 3);
  expect(search.prominenceCn).toBeCloseTo(40, 1);
});

test("a bump counts from the method's prominence", () => {
  const bump = (height: number): Profile => profileOf((x) => rise(x) + height * gauss(x, 1, 0.25));
  expect(tactileBump(bump(3.2), stretch, method, 0.01).bump).not.toBeNull();
  const small = tactileBump(bump(2.8), stretch, method, 0.01);
  expect(small.bump).toBeNull();
  expect(small.prominenceCn).toBeCloseTo(2.8, 1);
});

test("the corner of a steep rise is not smoothed into a bump", () => {
  for (const riseMm of [0.005, 0.02, 0.05]) {
    const search = tactileBump(
      profileOf((x) => 45 * Math.min(1, x / riseMm) + 6 * x),
      stretch,
      method,
      0.01,
    );
    expect(search.prominenceCn).toBeLessThan(0.05);
  }
});

test("noise and a saw-tooth of friction on a linear key are not taken for a bump", () => {
  for (let seed = 1; seed <= 20; seed++) {
    const noisy = profileOf((x) => rise(x) + 6 * x, 0.6, 0.01, seed);
    expect(tactileBump(noisy, stretch, method, 0.1).bump).toBeNull();
  }
  const saw = profileOf((x) => rise(x) + 5 * x + 4 * ((x / 0.035) % 1), 0.05, 0.005);
  expect(tactileBump(saw, stretch, method, 0.1).bump).toBeNull();
});

test("a sharp peak keeps its place: the window narrows to the corner", () => {
  const corner = profileOf((x) => (x < 0.11 ? 450 * x : 49.5 - 10 * (x - 0.11)), 0.05, 0.005);
  const { peak } = tactileBump(corner, { fromMm: 0, toMm: 1.6 }, method, 0.1).bump!;
  expect(Math.abs(peak.xMm - 0.11)).toBeLessThan(0.012);
  expect(peak.halfWidthMm).toBeLessThan(0.06);
});

test("a flat top is placed at its middle by a wider window, and its place is uncertain by more", () => {
  const flat = profileOf((x) => 50 - 60 * Math.max(0, Math.abs(x - 1) - 0.1) ** 2 + 6 * Math.max(0, x - 1.6), 0.1);
  const { peak } = tactileBump(flat, stretch, method, 0.1).bump!;
  expect(Math.abs(peak.xMm - 1)).toBeLessThan(0.08);
  expect(peak.halfWidthMm).toBeGreaterThan(0.06);
  const round = tactileBump(profileOf((x) => 50 - 300 * (x - 1) ** 2, 0.1), { fromMm: 0.7, toMm: 1.3 }, method, 0.1).bump!; // prettier-ignore
  expect(peak.noiseMm).toBeGreaterThan(round.peak.noiseMm);
});

test("of two bumps the larger fall is the tactile one; before a given place only earlier peaks count", () => {
  const two = profileOf((x) => rise(x) + 6 * gauss(x, 0.5, 0.12) + 15 * gauss(x, 1.8, 0.2));
  expect(tactileBump(two, stretch, method, 0.01).bump!.peak.xMm).toBeCloseTo(1.8, 2);
  expect(tactileBump(two, stretch, method, 0.01, 1.2).bump!.peak.xMm).toBeCloseTo(0.5, 2);
});

test("the asymmetry of a peak is seen by its cubic term: bias and its sign", () => {
  const skew = (x: number): number => 50 - 150 * (x - 1) ** 2 + 250 * (x - 1) ** 3;
  const { peak } = tactileBump(profileOf(skew), { fromMm: 0.7, toMm: 1.3 }, method, 0.001).bump!;
  const error = peak.xMm - 1;
  expect(Math.abs(error)).toBeGreaterThan(0.001);
  expect(peak.smoothingMm!.bias / error).toBeGreaterThan(0.8);
  expect(peak.smoothingMm!.bias / error).toBeLessThan(1.2);
});
