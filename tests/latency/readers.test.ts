import { expect, test } from "vitest";
import { observeFilm } from "../../src/latency/film-presses.js";
import { readerAgreement } from "../../src/latency/reader-agreement.js";
import { readerComponents, readerOffset } from "../../src/latency/reader-offset.js";
import { contextOf, film, press, rows } from "./records.js";

/** Presses read by several readers: rows of intervals in frames, one column a reader. */
function readBy(table: readonly (readonly (number | null)[])[], contactShift: readonly number[] = []) {
  const all = table.flatMap((intervals, i) =>
    intervals.flatMap((interval, r) => {
      if (interval === null) return [];
      const contactFrame = i * 1000 + (contactShift[r] ?? 0);
      return [press(i + 1, { reader: `reader-${"abc"[r]}`, contactFrame, responseFrame: contactFrame + interval })];
    }),
  );
  return observeFilm(all, [film()]).get("usb")!;
}

test("one reader: half a frame, rectangular, at either end, common to all presses", () => {
  const presses = readBy([[50], [51], [52]]);
  const components = readerComponents(readerOffset(presses, contextOf()), presses, "response");
  expect(components.map((c) => [c.source.label, c.contribution])).toEqual([
    ["Reader's own offset at response", 0.5 / Math.sqrt(3)],
    ["Reader's own offset at contact", -0.5 / Math.sqrt(3)],
  ]);
});

test("two readers with a constant difference d: sd d/sqrt(2) of one, half of d for their mean, one degree of freedom", () => {
  const presses = readBy(Array.from({ length: 8 }, (_, i) => [50 + i, 52 + i]));
  const offset = readerOffset(presses, contextOf());
  expect(offset.estimate?.sdFrames).toBeCloseTo(Math.SQRT2, 12);
  expect(offset.estimate?.dof).toBe(1);
  const [component] = readerComponents(offset, presses, "response");
  expect(component!.contribution).toBeCloseTo(1, 12);
  expect(component!.source.label).toBe("Readers' own offset");
});

test("readers who differ at random but not on average keep the standard error of that average", () => {
  const presses = readBy(Array.from({ length: 10 }, (_, i) => [50, 50 + (i % 2 === 0 ? 1 : -1)]));
  const { estimate } = readerOffset(presses, contextOf());
  // Differences +1, -1, ...: sd sqrt(10/9), so the mean of the differences errs by sqrt(1/9), each reader by its sqrt(2)th.
  expect(estimate!.sdFrames).toBeCloseTo(1 / 3 / Math.SQRT2, 12);
});

test("readers who agree throughout add nothing", () => {
  const presses = readBy(Array.from({ length: 6 }, (_, i) => [50 + i, 50 + i]));
  expect(readerOffset(presses, contextOf()).estimate?.sdFrames).toBe(0);
});

test("fewer than five shared presses keep the default for each reader, and say so", () => {
  const presses = readBy([
    [50, 51],
    [50, 51],
    [50, 51],
    [50, 51],
    [50, null],
    [null, 51],
  ]);
  const offset = readerOffset(presses, contextOf());
  expect(offset.estimate).toBeNull();
  expect(offset.basis).toContain("2 readers share 4 presses, fewer than 5");
  const components = readerComponents(offset, presses, "response");
  expect(components).toHaveLength(4);
  const total = Math.hypot(...components.map((c) => c.contribution));
  expect(total).toBeCloseTo(Math.sqrt(2 * 2 * (0.5 / Math.sqrt(3)) ** 2 * 0.25), 12);
});

test("a reader of few presses weighs little", () => {
  const table = Array.from({ length: 10 }, (_, i) => [50, i === 0 ? 50 : null]);
  const presses = readBy(table);
  const components = readerComponents(readerOffset(presses, contextOf()), presses, "response");
  const at = (reader: string) =>
    components.find((c) => c.source.id === `session/u07/s2/reader/${reader}/response`)!.contribution;
  expect(at("reader-a") / at("reader-b")).toBeCloseTo(9.5 / 0.5, 10);
});

test("a study of readers goes before the session's own readers", () => {
  const presses = readBy(Array.from({ length: 8 }, (_, i) => [50 + i, 52 + i]));
  const readerOffsetStudy = { sdFrames: 0.3, dof: 7, id: "study/readers-1", evidence: rows("s.yaml", 1) };
  const offset = readerOffset(presses, contextOf({ readerOffset: readerOffsetStudy }));
  expect(offset.estimate).toEqual({ sdFrames: 0.3, dof: 7, type: "A" });
  expect(offset.basis).toContain("study/readers-1");
  expect(() => readerOffset(presses, contextOf({ readerOffset: { ...readerOffsetStudy, sdFrames: NaN } }))).toThrow(
    "NaN",
  );
});

test("agreement counts presses that are equal, within one frame, and beyond, at both ends and for the interval", () => {
  const presses = readBy(
    [
      [50, 50],
      [50, 51],
      [50, 53],
      [50, 50],
    ],
    [0, 1],
  );
  const found = readerAgreement(presses, readerOffset(presses, contextOf()))!;
  expect(found.readers).toEqual(["reader-a", "reader-b"]);
  expect(found.presses).toBe(4);
  expect(found.interval).toEqual({ equal: 2, withinOne: 1, beyond: 1 });
  expect(found.contact).toEqual({ equal: 0, withinOne: 4, beyond: 0 });
  expect(found.response).toEqual({ equal: 0, withinOne: 2, beyond: 2 });
  expect(found.offsetsFrames).toEqual([
    { reader: "reader-a", offsetFrames: -0.5 },
    { reader: "reader-b", offsetFrames: 0.5 },
  ]);
});

test("one reader gives no agreement", () => {
  const presses = readBy([[50], [51]]);
  expect(readerAgreement(presses, readerOffset(presses, contextOf()))).toBeNull();
});

test("three readers have two degrees of freedom", () => {
  const presses = readBy(Array.from({ length: 6 }, (_, i) => [50 + i, 51 + i, 52 + i]));
  expect(readerOffset(presses, contextOf()).estimate).toEqual({ sdFrames: 1, dof: 2, type: "A" });
});
