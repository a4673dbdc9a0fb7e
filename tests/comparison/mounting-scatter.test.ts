import { expect, test } from "vitest";
import { mountingScatter, withMounting } from "../../src/comparison/index.js";
import { seededRandom } from "../../src/metrology/random.js";
import { absent, own, present, quantity } from "./support.js";

interface Reading {
  readonly cell: string;
  readonly mount: string;
  readonly value: number;
}
const settings = { cell: ({ cell }: Reading) => cell, mount: ({ mount }: Reading) => mount, name: "actuationForce" };

function readings(mountSd: number, repeatSd: number, seed: number, cells = 10): readonly Reading[] {
  const random = seededRandom(seed);
  return Array.from({ length: cells }, (_, c) => {
    const cell = 40 + 3 * random.normal();
    return [1, 2, 3].flatMap((m) => {
      const mount = mountSd * random.normal();
      return [1, 2].map(() => ({ cell: `c${c}`, mount: `${m}`, value: cell + mount + repeatSd * random.normal() }));
    });
  }).flat();
}

test("the scatter of mountings is the nested component of a small table (computed by hand)", () => {
  const table: readonly Reading[] = [
    ["a", "1", 10],
    ["a", "1", 12],
    ["a", "2", 15],
    ["a", "2", 17],
    ["b", "1", 20],
    ["b", "1", 20],
    ["b", "2", 24],
    ["b", "2", 26],
  ].map(([cell, mount, value]) => ({ cell: cell as string, mount: mount as string, value: value as number }));
  const { sd, dof } = mountingScatter(table, ({ value }) => quantity(value), settings);
  // Means of mounts 11, 16 | 20, 25: SS 2(2.5² x 4) = 50 on 2; within: 2 + 2 + 0 + 2 = 6 on 4.
  const [msMount, msRepeat] = [50 / 2, 6 / 4];
  expect(present(sd).value).toBeCloseTo(Math.sqrt((msMount - msRepeat) / 2), 12);
  const variance = (msMount - msRepeat) / 2;
  expect(dof).toBeCloseTo(variance ** 2 / ((msMount / 2) ** 2 / 2 + (msRepeat / 2) ** 2 / 4), 12);
});

test("over 300 seeded studies the variance is right on average, and 0 where mounting does not matter", () => {
  const mean = (mountSd: number): number =>
    Array.from(
      { length: 300 },
      (_, seed) =>
        present(mountingScatter(readings(mountSd, 0.15, seed), ({ value }) => quantity(value), settings).sd).value ** 2,
    ).reduce((a, b) => a + b, 0) / 300;
  expect(Math.sqrt(mean(0.3))).toBeCloseTo(0.3, 1);
  expect(mean(0)).toBeLessThan(0.002);
});

test("readings that cannot separate it give an absence with the reason, no readings too", () => {
  const single = readings(0.1, 0.1, 1).filter((_, i) => i % 2 === 0);
  const found = mountingScatter(single, ({ value }) => quantity(value), settings);
  expect(found.sd.absent).toBe(true);
  expect(found.dof).toBe(0);
  expect(mountingScatter([], () => quantity(1), settings).sd.absent).toBe(true);
});

test("a change gets one source a session, each of the mounting's size", () => {
  const scatter = mountingScatter(readings(0.3, 0.05, 4), ({ value }) => quantity(value), settings);
  const change = withMounting(own("d", 1, 0.4), scatter, ["u01/s1", "u01/s2"], "actuationForce");
  expect(present(change).u).toBeCloseTo(Math.sqrt(0.4 ** 2 + 2 * present(scatter.sd).value ** 2), 12);
  expect(withMounting(absent("none"), scatter, ["a", "b"], "x").absent).toBe(true);
  const unknown = { sd: absent("no study"), dof: 0 };
  expect(present(withMounting(own("d", 1, 0.4), unknown, ["a", "b"], "x")).u).toBe(0.4);
});
