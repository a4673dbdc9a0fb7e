import { expect, test } from "vitest";
import type { KeyboardChain } from "../../tools/simulation/keyboard-chain.js";
import { drawChainMs, expectedChainMs } from "../../tools/simulation/keyboard-chain.js";
import { Random } from "../../tools/simulation/random.js";

const bare: KeyboardChain = {
  bounceMs: 0.5,
  bounceMostMs: 3,
  debounce: { kind: "eager", ms: 0 },
  scanMs: 0,
  firmwareMs: 0,
  link: { kind: "usb", pollMs: 0 },
};

function moments(chain: KeyboardChain, n = 60_000): { readonly mean: number; readonly sd: number } {
  const random = new Random(11);
  const values = Array.from({ length: n }, () => drawChainMs(chain, random));
  const mean = values.reduce((a, b) => a + b, 0) / n;
  return { mean, sd: Math.sqrt(values.reduce((a, b) => a + (b - mean) ** 2, 0) / n) };
}

test("polling alone is uniform on one interval: mean T/2, sd T/√12", () => {
  for (const [pollMs, sd] of [
    [1, 0.2887],
    [8, 2.3094],
    [10, 2.8868],
  ] as const) {
    const found = moments({ ...bare, link: { kind: "usb", pollMs } });
    expect(found.mean / (pollMs / 2)).toBeCloseTo(1, 2);
    expect(found.sd / sd).toBeCloseTo(1, 2);
  }
});

test("scan and poll together are a trapezoid: 5 and 8 ms give 2.7234 ms, 5 and 1 ms give 1.4720 ms", () => {
  const sd = (pollMs: number): number => moments({ ...bare, scanMs: 5, link: { kind: "usb", pollMs } }).sd;
  expect(sd(8) / 2.7234).toBeCloseTo(1, 2);
  expect(sd(1) / 1.472).toBeCloseTo(1, 2);
});

test("a lost packet costs a whole interval: a comb, not a smear", () => {
  const random = new Random(3);
  const link = { kind: "bluetooth", intervalMs: 7.5, lossShare: 0.2, hostMs: 0 } as const;
  const values = Array.from({ length: 20_000 }, () => drawChainMs({ ...bare, link }, random));
  const share = (from: number): number => values.filter((v) => v >= from && v < from + 7.5).length / values.length;
  expect(share(0)).toBeCloseTo(0.8, 1);
  expect(share(7.5)).toBeCloseTo(0.16, 1);
  expect(share(15) / share(7.5)).toBeCloseTo(0.2, 1);
  expect(moments({ ...bare, link: { ...link, lossShare: 0 } }).sd / 2.1651).toBeCloseTo(1, 2);
});

test("deferred debounce waits out the bounce and its own time; eager debounce adds nothing", () => {
  const deferred = { ...bare, debounce: { kind: "deferred", ms: 5 } } as const;
  expect(expectedChainMs(bare)).toBe(0);
  expect(expectedChainMs(deferred)).toBeCloseTo(5 + 0.5 * (1 - Math.exp(-6)), 9);
  expect(moments(deferred).mean).toBeCloseTo(expectedChainMs(deferred), 2);
});

test("the stated expectation is the mean of the draws, for every kind of link", () => {
  const links: readonly KeyboardChain["link"][] = [
    { kind: "usb", pollMs: 8 },
    { kind: "receiver", slotMs: 4, airMs: 0.6, lossShare: 0.1, pollMs: 1 },
    { kind: "bluetooth", intervalMs: 15, lossShare: 0.08, hostMs: 1.8 },
  ];
  for (const link of links) {
    const chain: KeyboardChain = { ...bare, debounce: { kind: "deferred", ms: 5 }, scanMs: 2, firmwareMs: 0.3, link };
    const { mean, sd } = moments(chain);
    expect(Math.abs(mean - expectedChainMs(chain))).toBeLessThan((4 * sd) / Math.sqrt(60_000));
  }
});
