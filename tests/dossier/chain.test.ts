import { expect, test } from "vitest";
import type { Evidence } from "../../src/metrology/evidence.js";
import { evidenceStep } from "../../src/metrology/evidence.js";
import { evidenceEnds, foldEvidence } from "../../src/dossier/chain.js";

const row = (line: number, file = "force.csv"): Evidence => ({
  kind: "rows",
  file,
  firstLine: line,
  lastLine: line,
  columns: ["x"],
});
const none = (): null => null;

test("siblings of one operation become one link with their number, whatever keys and counts they name", () => {
  const cycles = (key: string, count: number): Evidence =>
    evidenceStep(
      `mean of ${count} cycles of ${key}`,
      Array.from({ length: count }, (_, i) => row(key.charCodeAt(3) * 10 + i * 2)),
    );
  const chain = foldEvidence(
    [evidenceStep("mean of 3 keys", [cycles("KeyA", 3), cycles("KeyB", 3), cycles("KeyC", 2)])],
    none,
  );
  const [mean] = chain.steps;
  expect(mean!.operations).toEqual([{ text: "mean of 3 keys", times: 1 }]);
  expect(mean!.from.steps).toHaveLength(1);
  expect(mean!.from.steps[0]!.operations).toEqual([
    { text: "mean of 3 cycles of KeyA", times: 1 },
    { text: "mean of 3 cycles of KeyB", times: 1 },
    { text: "mean of 2 cycles of KeyC", times: 1 },
  ]);
  expect(mean!.from.steps[0]!.from.rows[0]!.ranges).toHaveLength(8);
});

test("more than three wordings of one operation are told by the first", () => {
  const steps = ["KeyA", "KeyB", "KeyC", "KeyD"].map((key, index) => evidenceStep(`fit of ${key}`, [row(index * 2)]));
  const [fit] = foldEvidence([evidenceStep("mean", steps)], none).steps[0]!.from.steps;
  expect(fit!.operations).toEqual([{ text: "fit of KeyA", times: 4, alike: true }]);
});

test("a node that is known elsewhere is cited and not followed, the root always followed", () => {
  const key = evidenceStep("mean of 3 cycles", [row(5)]);
  const root = evidenceStep("mean of 1 key", [key, row(9, "rig.yaml")]);
  const chain = foldEvidence([root], (node) => (node === key || node === root ? "known" : null));
  expect(chain.steps[0]!.from).toEqual({
    known: ["known"],
    steps: [],
    rows: [{ file: "rig.yaml", ranges: [[9, 9]], columns: ["x"] }],
  });
});

test("what is noted of some siblings is not said of the others", () => {
  const make = (key: string, index: number, note?: string): Evidence =>
    evidenceStep(`force where the contact closes, ${key}`, [row(index * 2)], note);
  const late = "learnt from a report 0 ms to 30 ms late";
  const strokes = [make("KeyA", 1), make("KeyB", 2, late), make("KeyC", 3), make("KeyD", 4, late)];
  const { steps } = foldEvidence([evidenceStep("mean", strokes)], none).steps[0]!.from;
  expect(steps.map((step) => [step.notes, step.operations.map(({ text }) => text.slice(-4))])).toEqual([
    [[], ["KeyA", "KeyC"]],
    [[late], ["KeyB", "KeyD"]],
  ]);
});

test("a shared node counts once on its level, and notes stay", () => {
  const shared = evidenceStep("zero", [row(1)], "taken before the session");
  const chain = foldEvidence(
    [evidenceStep("difference", [evidenceStep("left", [shared]), evidenceStep("right", [shared])])],
    none,
  );
  const level = chain.steps[0]!.from.steps;
  expect(level.map((step) => step.from.steps[0]!.operations[0]!.times)).toEqual([1, 1]);
  expect(level[0]!.from.steps[0]!.notes).toEqual(["taken before the session"]);
});

test("ends are all raw rows and known numbers below a number", () => {
  const key = evidenceStep("mean of 3 cycles", [row(5)]);
  const ends = evidenceEnds(evidenceStep("sum", [key, evidenceStep("fit", [row(7), row(8)])]), (node) =>
    node === key ? "c1" : null,
  );
  expect(ends).toEqual({ rows: [{ file: "force.csv", ranges: [[7, 8]], columns: ["x"] }], known: ["c1"] });
});

test("a wide graph of shared nodes is walked once", () => {
  let level: Evidence[] = Array.from({ length: 30 }, (_, index) => row(index * 2 + 1));
  for (let depth = 0; depth < 30; depth++) level = level.map(() => evidenceStep(`level ${depth}`, level));
  expect(evidenceEnds(level[0]!, none).rows[0]!.ranges).toHaveLength(30);
  expect(foldEvidence([level[0]!], none).steps).toHaveLength(1);
});
