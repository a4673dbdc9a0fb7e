import fc from "fast-check";
import MarkdownIt from "markdown-it";
import { expect, test } from "vitest";
import { changeNote, movements, summariseChange } from "../../src/comparison/index.js";
import type { ChangeFacts } from "../../src/comparison/index.js";
import { absent, own, quantity } from "./support.js";

const verdictOf = (change: ReturnType<typeof own>): ChangeFacts["values"][number]["verdict"] =>
  movements([0], () => change, { smallestChange: quantity(3) })[0]!.verdict;

function facts(changed: Partial<ChangeFacts> = {}): ChangeFacts {
  return {
    from: "keystroke@1",
    to: "keystroke@2",
    difference: "Where the old method measured one key, the new one measures eight.",
    noun: "unit",
    units: { retested: ["u01", "u02"], pending: [], outOfReach: [], fresh: [], apart: [], told: [], unsettled: [] },
    values: [],
    movements: [],
    ranks: { by: "actuation force", ranked: 0, turned: [], turnedAlone: [] },
    purposes: [],
    added: [],
    ...changed,
  };
}
const text = (given: ChangeFacts): string =>
  summariseChange(given)
    .map((part) => part.text)
    .join("\n")
    .replaceAll("\u00a0", " ");
const value = (d: number, u: number): ChangeFacts["values"][number] => {
  const bias = own("bias", d, u);
  return {
    name: "actuation force",
    bias,
    further: own("further", d, 2, { dof: 10 }),
    verdict: verdictOf(bias),
    smallest: quantity(3),
    pairs: 11,
  };
};

test("a shown change is told with its size and whether that matters", () => {
  expect(text(facts({ values: [value(5, 0.5)] }))).toContain("changes by (5.00 ± 0.98) cN on average over 11 units");
  expect(text(facts({ values: [value(9, 0.5)] }))).toContain("more than the 3 cN that matter");
  expect(text(facts({ values: [value(3.2, 0.5)] }))).toContain("whether that is as much as matters is open");
});

test("a shown absence is told against the smallest change that matters, everything else is open", () => {
  expect(text(facts({ values: [value(0.4, 0.5)] }))).toContain("does not change on average by the 3 cN that matter");
  expect(text(facts({ values: [value(1, 1.9)] }))).toContain("is open");
});

test("where nothing was retested nothing is claimed", () => {
  const none = facts({
    units: {
      retested: [],
      pending: ["u07"],
      outOfReach: ["u12, returned"],
      fresh: [],
      apart: [],
      told: [],
      unsettled: [],
    },
    values: [{ ...value(0, 1), bias: absent("no unit has both values") }],
  });
  expect(text(none)).toContain("none has been measured again");
  expect(text(none)).toContain("cannot be said: no unit has both values");
  expect(text(none)).toContain("Cannot be measured again, because the laboratory does not hold them: u12, returned");
  expect(text(none)).not.toMatch(/changed between|did not move/);
});

test("units that moved are named with their characteristic, size and reservation", () => {
  const moved = facts({
    movements: [
      { unit: "u09", name: "actuation force", change: own("d", -4.9, 0.3), outcome: "yes", note: "", record: "" },
      {
        unit: "u13",
        name: "actuation force",
        change: own("d", 2.9, 0.3),
        outcome: "yes",
        note: "its size may not matter",
        record: "Membrane replaced in January 2026.",
      },
      { unit: "u01", name: "actuation force", change: own("d", 0.1, 0.3), outcome: "no", note: "", record: "" },
      {
        unit: "u02",
        name: "operating force",
        change: absent("linear"),
        outcome: "undecided",
        note: "linear",
        record: "",
      },
    ],
  });
  expect(text(moved)).toContain(
    "u09: actuation force by (−4.90 ± 0.59) cN; its record names no cause. u13: actuation force by (2.90 ± 0.59) cN " +
      "(its size may not matter); its own record says “Membrane replaced in January 2026”.",
  );
  expect(text(moved)).toContain("1 of 3 single values did not move by as much as matters.");
});

const purpose = (changed: Partial<ChangeFacts["purposes"][number]> = {}): ChangeFacts["purposes"][number] => ({
  name: "examination hall",
  outcome: "unchanged",
  best: ["u01", "u05", "u07"],
  probability: "0.19",
  open: [],
  entering: [],
  leaving: [],
  grades: [],
  openGrades: 0,
  scored: 9,
  places: 3,
  ...changed,
});

test("the best are told as best by value, with the probability that they are the best, purposes alike together", () => {
  expect(text(facts({ purposes: [purpose(), purpose({ name: "language booth" })] }))).toContain(
    "For examination hall and language booth, best by value are u01, u05 and u07; the probability that these are the " +
      "3 best is 0.19; by value the picks stay.",
  );
  const equal = text(facts({ purposes: [purpose({ best: ["u01", "u05"], places: 1, probability: "< 0.001" })] }));
  expect(equal).toContain("best by value are u01 and u05, for 1 place, since some are equal");
});

test("a pick is told as staying, taking another's place or without a safe choice, and what is open is named", () => {
  const swap = { entering: ["u05"], leaving: ["u02"] };
  expect(text(facts({ purposes: [purpose({ ...swap, outcome: "changed" })] }))).toContain("u05 takes the place of u02");
  const open = text(
    facts({ purposes: [purpose({ ...swap, outcome: "no safe choice", open: ["u01", "u05", "u02"] })] }),
  );
  expect(open).toContain("there is no safe choice between u02 and u05; which of u01, u05 and u02 belong to the best");
  expect(open).not.toMatch(/takes the place of u02|recommended/);
  expect(text(facts({ purposes: [purpose({ scored: 2 })] }))).toContain(
    "all 2 units that have a merit are among the 3 picks",
  );
});

test("one further unit is told by its prediction interval, and by nothing where there is none", () => {
  const given = { ...value(0.4, 0.74), further: own("f", 0.4, 2.423, { dof: 10 }) };
  expect(text(facts({ values: [given] }))).toContain(
    "One further unit like these is expected at 95 % to change by −5.0 cN to 5.8 cN.",
  );
  expect(text(facts({ values: [{ ...given, further: absent("2 pairs") }] }))).not.toContain("further");
});

test("a unit whose own record tells of the time between is named with its words, and an unrecorded firmware as open", () => {
  const { units } = facts();
  const told = [{ unit: "u13", note: "Membrane replaced in January 2026." }];
  const unsettled = [{ unit: "u11", what: "firmware is not recorded in either of the two sessions" }];
  const said = text(facts({ units: { ...units, told, unsettled } }));
  expect(said).toContain(
    "own record tells of the time between the sessions: u13, “Membrane replaced in January 2026”.",
  );
  expect(said).toContain(
    "Of u11 the firmware is not recorded in either of the two sessions, so that a change of it cannot be ruled out.",
  );
});

test("an order that turned only when taken alone is told as that, and as no claim", () => {
  const ranks = { by: "actuation force", ranked: 9, turned: [], turnedAlone: [["u11", "u09"]] as [string, string][] };
  expect(text(facts({ ranks }))).toContain(
    "no two of 9 units are shown to have changed places, all pairs together. Taken alone at 5 %, which is no claim: " +
      "u09 ahead of u11.",
  );
});

test("no claim is told that is not in the facts (property over random facts)", () => {
  const outcome = fc.constantFrom("yes" as const, "no" as const, "undecided" as const);
  const movement = fc.record({
    unit: fc.constantFrom("u01", "u02", "u03"),
    name: fc.constant("pre-travel"),
    outcome,
    note: fc.constant(""),
    record: fc.constant(""),
  });
  const bias = fc.tuple(fc.integer({ min: -9, max: 9 }), fc.integer({ min: 1, max: 30 }));
  fc.assert(
    fc.property(
      fc.array(movement, { maxLength: 5 }),
      fc.array(bias, { maxLength: 3 }),
      fc.constantFrom("unchanged" as const, "changed" as const, "no safe choice" as const),
      (rows, biases, picks) => {
        const given = facts({
          movements: rows.map((row, i) => ({ ...row, unit: `${row.unit}-${i}`, change: own(`d${i}`, i, 0.5) })),
          values: biases.map(([d, u]) => value(d, u / 10)),
          purposes: [
            purpose({
              outcome: picks,
              entering: picks === "unchanged" ? [] : ["u05"],
              leaving: picks === "unchanged" ? [] : ["u02"],
            }),
          ],
        });
        const said = text(given);
        for (const { unit, outcome: word } of given.movements)
          expect(said.includes(`${unit}: `) || said.includes(`; ${unit}: `)).toBe(word === "yes");
        expect(said.includes("The published actuation force changes by")).toBe(
          given.values.some(({ verdict }) => verdict.outcome === "yes"),
        );
        expect(said.includes("does not change on average")).toBe(
          given.values.some(({ verdict }) => verdict.outcome === "no"),
        );
        expect(said.includes("takes the place of u02")).toBe(picks === "changed");
      },
    ),
    { seed: 9, numRuns: 200 },
  );
});

test("the note is Markdown that gives a heading, the paragraphs, a table and the open list", () => {
  const note = changeNote(
    facts({
      units: {
        retested: ["u01"],
        pending: ["u07 (Slate_14, sample *1*)"],
        outOfReach: ["u12"],
        fresh: [],
        apart: [],
        told: [],
        unsettled: [],
      },
      values: [value(0.4, 0.5)],
    }),
  );
  const html = new MarkdownIt().render(note.join("\n"));
  expect(html).toContain("<h2>Change of method: keystroke@1 to keystroke@2</h2>");
  expect(html.match(/<table>/g)).toHaveLength(1);
  expect(html).toContain("<td>did not move</td>");
  expect(html).toContain("u07 (Slate_14, sample *1*)");
  expect(html).not.toContain("<em>");
  expect(html.match(/<li>/g)).toHaveLength(2);
});
