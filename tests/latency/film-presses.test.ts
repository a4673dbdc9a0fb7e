import { expect, test } from "vitest";
import { evidenceLeaves } from "../../src/metrology/evidence.js";
import { observeFilm } from "../../src/latency/film-presses.js";
import { isValid } from "../../src/latency/observed-press.js";
import { film, frozen, press } from "./records.js";

const only = (rows: Parameters<typeof observeFilm>[0], films = [film()]) => {
  const presses = observeFilm(frozen(rows), frozen(films)).get("usb")!;
  expect(presses).toHaveLength(1);
  return presses[0]!;
};

test("a press is response minus contact over the clip's frame rate", () => {
  const found = only([press(1, { contactFrame: 100, responseFrame: 148 })], [film("c1", 960)]);
  expect(found.timeMs).toBe(50);
  expect(found.stepMs).toBeCloseTo(1000 / 960, 12);
  expect(isValid(found)).toBe(true);
});

test("several readers of one press are averaged, and all their rows are its evidence", () => {
  const found = only([
    press(1, { reader: "reader-b", contactFrame: 101, responseFrame: 150 }),
    press(1, {
      reader: "reader-a",
      contactFrame: 100,
      responseFrame: 150,
      evidence: { ...press(1).evidence, firstLine: 9, lastLine: 9 },
    }),
  ]);
  expect(found.timeMs).toBe(49.5);
  expect(found.readings.map((reading) => reading.reader)).toEqual(["reader-a", "reader-b"]);
  expect(evidenceLeaves(found.evidence).map((leaf) => `${leaf.file}:${leaf.firstLine}`)).toEqual([
    "units/u07/s2/presses.csv:9",
    "units/u07/s2/presses.csv:2",
    "units/u07/s2/films.csv:2",
  ]);
});

test.each([
  ["missed", "no response to this press"],
  ["double", "two responses to one press"],
  ["unreadable", "the film of this press could not be read"],
] as const)("a press marked %s keeps its place and has no valid interval", (outcome, reason) => {
  const found = only([press(1, { outcome, responseFrame: null })]);
  expect(found.outcome).toBe(outcome);
  expect(found.fault).toEqual({ kind: outcome, reason });
  expect(isValid(found)).toBe(false);
});

test("a doubled press keeps the time of its response for the page", () => {
  expect(only([press(1, { outcome: "double" })]).timeMs).toBe(50);
});

test("a response before contact is impossible, and says by how much and by whom", () => {
  const found = only([press(1, { contactFrame: 50, responseFrame: 47 })]);
  expect(found.fault).toEqual({ kind: "impossible", reason: "reader-a read the response 3 frames before contact" });
  expect(found.timeMs).toBe(-3);
});

test("one impossible reading of two makes the press impossible", () => {
  const found = only([
    press(1, { reader: "reader-a" }),
    press(1, { reader: "reader-b", contactFrame: 60, responseFrame: 50 }),
  ]);
  expect(found.fault?.kind).toBe("impossible");
});

test("a response in the frame of contact is a time of 0, not a fault", () => {
  const found = only([press(1, { contactFrame: 50, responseFrame: 50 })]);
  expect([found.timeMs, found.fault]).toEqual([0, null]);
});

test("readers who disagree on the outcome leave the press unreadable, and are named", () => {
  const found = only([press(1), press(1, { reader: "reader-b", outcome: "missed", responseFrame: null })]);
  expect(found.outcome).toBe("unreadable");
  expect(found.fault?.reason).toBe("the readers disagree on what happened: reader-a ok, reader-b missed");
});

test("a reader who could not read the press leaves it to the other, with a note", () => {
  const found = only([press(1), press(1, { reader: "reader-b", outcome: "unreadable", responseFrame: null })]);
  expect([found.timeMs, found.outcome, found.fault]).toEqual([50, "ok", null]);
  expect(found.notes).toEqual(["reader-b could not read this press"]);
});

test("a press excluded by hand keeps its time and its reason", () => {
  const found = only([press(1, { excluded: "a hand touched the plunger" })]);
  expect([found.timeMs, found.excluded]).toEqual([50, "a hand touched the plunger"]);
  expect(isValid(found)).toBe(false);
});

test("one reader's row excluded leaves the press to the other reader, with a note", () => {
  const found = only([press(1, { excluded: "wrong clip open", responseFrame: 99 }), press(1, { reader: "reader-b" })]);
  expect([found.timeMs, found.excluded]).toEqual([50, ""]);
  expect(found.notes).toEqual(["the reading of reader-a is excluded: wrong clip open"]);
});

test("the same reader twice is averaged, with a note", () => {
  const found = only([press(1), press(1, { responseFrame: 52 })]);
  expect(found.timeMs).toBe(51);
  expect(found.notes).toEqual(["one reader read this press more than once; the readings are averaged"]);
});

test.each([
  [{ responseFrame: null }, [film()], "no reader gave both a contact and a response frame"],
  [{ contactFrame: NaN }, [film()], "no reader gave both a contact and a response frame"],
  [{}, [], "films.csv gives no frame rate for clip c1"],
  [{}, [film("c1", 0)], "films.csv gives no frame rate for clip c1"],
  [{}, [film("c1", NaN)], "films.csv gives no frame rate for clip c1"],
])("a press marked ok with %j and %# is incomplete and says why", (changes, films, reason) => {
  const found = only([press(1, changes)], films);
  expect(found.fault).toEqual({ kind: "incomplete", reason });
  expect(found.timeMs).toBeNull();
});

test("the mark is averaged over the readers that read it", () => {
  const found = only([
    press(1, { contactFrame: 0, markFrame: 16 }),
    press(1, { reader: "reader-b", contactFrame: 1, markFrame: 18 }),
    press(1, { reader: "reader-c", contactFrame: 1, markFrame: null }),
  ]);
  expect(found.markMs).toBe(16.5);
});

test("presses come by number, then key, whatever the order of the rows", () => {
  const presses = observeFilm([press(2), press(1, { key: "KeyZ" }), press(1)], [film()]).get("usb")!;
  expect(presses.map((each) => `${each.press} ${each.key}`)).toEqual(["1 KeyF", "1 KeyZ", "2 KeyF"]);
});

test("connections are apart, even where press numbers are the same", () => {
  const found = observeFilm([press(1), press(1, { connection: "receiver" })], [film()]);
  expect([...found.keys()]).toEqual(["usb", "receiver"]);
});
