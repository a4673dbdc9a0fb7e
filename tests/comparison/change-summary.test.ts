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
    units: { retested: ["u01", "u02"], pending: [], outOfReach: [], fresh: [], apart: [] },
    values: [],
    movements: [],
    ranks: { by: "actuation force", ranked: 0, turned: [] },
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
    limits: [own("l", d - 4, 1), own("h", d + 4, 1)],
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
    units: { retested: [], pending: ["u07"], outOfReach: ["u12, returned"], fresh: [], apart: [] },
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
      { unit: "u09", name: "actuation force", change: own("d", -4.9, 0.3), outcome: "yes", note: "" },
      {
        unit: "u13",
        name: "actuation force",
        change: own("d", 2.9, 0.3),
        outcome: "yes",
        note: "its size may not matter",
      },
      { unit: "u01", name: "actuation force", change: own("d", 0.1, 0.3), outcome: "no", note: "" },
      { unit: "u02", name: "operating force", change: absent("linear"), outcome: "undecided", note: "linear" },
    ],
  });
  expect(text(moved)).toContain(
    "u09: actuation force by (−4.90 ± 0.59) cN; u13: actuation force by (2.90 ± 0.59) cN (its size may not matter).",
  );
  expect(text(moved)).toContain("1 of 3 single values did not move by as much as matters.");
});

const purpose = (changed: Partial<ChangeFacts["purposes"][number]> = {}): ChangeFacts["purposes"][number] => ({
  name: "examination hall",
  outcome: "unchanged",
  kept: ["u01"],
  entering: [],
  leaving: [],
  grades: [],
  openGrades: 0,
  scored: 9,
  places: 3,
  ...changed,
});

test("a recommendation is told as unchanged, changed or without a safe choice, purposes alike together", () => {
  expect(text(facts({ purposes: [purpose(), purpose({ name: "language booth" })] }))).toContain(
    "For examination hall and language booth, the recommended units stay: u01.",
  );
  const swap = { entering: ["u05"], leaving: ["u02"] };
  expect(text(facts({ purposes: [purpose({ ...swap, outcome: "changed" })] }))).toContain("u05 takes the place of u02");
  const open = text(facts({ purposes: [purpose({ ...swap, outcome: "no safe choice" })] }));
  expect(open).toContain("there is no safe choice between u02 and u05; u01 stays recommended");
  expect(open).not.toContain("takes the place of u02");
  expect(text(facts({ purposes: [purpose({ scored: 2 })] }))).toContain(
    "all 2 units that have a merit are among the 3 recommended",
  );
});

test("no claim is told that is not in the facts (property over random facts)", () => {
  const outcome = fc.constantFrom("yes" as const, "no" as const, "undecided" as const);
  const movement = fc.record({
    unit: fc.constantFrom("u01", "u02", "u03"),
    name: fc.constant("pre-travel"),
    outcome,
    note: fc.constant(""),
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
      units: { retested: ["u01"], pending: ["u07 (Slate_14, sample *1*)"], outOfReach: ["u12"], fresh: [], apart: [] },
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
