import { expect, test } from "vitest";
import { GroundBook, letters, markText } from "../../src/dossier/ground-book.js";
import { evidenceStep } from "../../src/metrology/evidence.js";
import { Absent, Count, Quantity } from "../../src/metrology/quantity.js";
import type { Verdict } from "../../src/metrology/verdict.js";

const rows = { kind: "rows", file: "a.csv", firstLine: 2, lastLine: 3, columns: [] } as const;
const quantity = (value: number): Quantity => new Quantity(value, "cN", [], evidenceStep("fit", [rows]));
const head = { label: "Force", workings: [0] };

function openBook(): GroundBook {
  const book = new GroundBook();
  book.open("1");
  return book;
}

test("numbers are lettered in page order within a section, and each has one ground however often it is printed", () => {
  const book = openBook();
  const [a, b] = [quantity(1), quantity(2)];
  expect(markText(book.cite(a, head)!, "1")).toBe("a");
  expect(markText(book.cite(b, head)!, "1")).toBe("b");
  book.open("2");
  expect(markText(book.cite(a, head)!, "2")).toBe("1a");
  expect(markText(book.cite(quantity(1), head)!, "2")).toBe("a");
  expect(book.of("1")).toHaveLength(2);
});

test("the same value from the same evidence is the same number, another object or not", () => {
  const book = openBook();
  const a = quantity(1);
  const first = book.cite(a, head);
  expect(book.cite(new Quantity(1, "cN", [], a.evidence), head)).toBe(first);
  expect(book.cite(new Quantity(1, "mm", [], a.evidence), head)).not.toBe(first);
});

test("numbers of one column share a letter and are counted; those printed before keep theirs", () => {
  const book = openBook();
  const [a, b, c] = [quantity(1), quantity(2), quantity(3)];
  book.cite(b, head);
  const marks = book
    .citeAll(
      [a, b, c].map((subject) => ({ subject, label: "" })),
      head,
    )
    .map((entry) => markText(entry!, "1"));
  expect(marks).toEqual(["b1", "a", "b2"]);
});

test("a count without raw rows has no ground, one with them has", () => {
  const book = openBook();
  expect(book.cite(new Count(3), head)).toBeNull();
  expect(book.cite(new Count(3, evidenceStep("count", [rows])), head)).not.toBeNull();
});

test("what a verdict cites gets its ground before the verdict, unless a table further down prints it", () => {
  const book = openBook();
  const [early, late] = [quantity(1), quantity(2)];
  book.await(late);
  const verdict: Verdict = {
    kind: "verdict",
    family: "conformity",
    outcome: "yes",
    statement: "s",
    rule: "r",
    cites: [early, late],
  };
  expect(markText(book.cite(verdict, head)!, "1")).toBe("b");
  expect(markText(book.find(early)!, "1")).toBe("a");
  expect(book.find(late)).toBeNull();
});

test("an absence with the evidence of a quantity does not stand for it", () => {
  const book = openBook();
  const a = quantity(1);
  book.cite(new Absent("cN", "no peak", a.evidence), head);
  expect(book.numberAt(a.evidence)).toBeNull();
  const entry = book.cite(a, head);
  expect(book.numberAt(a.evidence)).toBe(entry);
});

test("letters go on after z with aa", () => {
  expect([0, 25, 26, 27, 51, 52, 701, 702].map(letters)).toEqual(["a", "z", "aa", "ab", "az", "ba", "zz", "aaa"]);
});

test("of several numbers with one evidence the first that is printed outside figures is cited for it", () => {
  const book = openBook();
  const first = quantity(1);
  const second = new Quantity(2, "cN", [], first.evidence);
  book.cite(first, { ...head, drawn: true });
  expect(book.numberAt(first.evidence)).toBeNull();
  const entry = book.cite(second, head);
  expect(book.numberAt(first.evidence)).toBe(entry);
  const printed = book.cite(first, head);
  expect(book.numberAt(first.evidence)).toBe(printed);
});
