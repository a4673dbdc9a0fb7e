import fc from "fast-check";
import { expect, test } from "vitest";
import { cycleCounter } from "../../../src/build/receive/count-cycles.js";
import { parseFileNamePattern } from "../../../src/build/receive/file-name-pattern.js";
import { findDelimiter } from "../../../src/build/receive/find-delimiter.js";
import { joinLeftOut, lineRange, shortRange } from "../../../src/build/receive/left-out.js";
import { numberReader, turnSign } from "../../../src/build/receive/number-cell.js";
import { kindOfUnit, unitInHeader, unitOfWord } from "../../../src/build/receive/unit-words.js";

test("a decimal point is kept with every digit, a decimal comma becomes a point, and nothing else changes", () => {
  const [point, comma] = [numberReader({ decimal: ".", grouping: "" }), numberReader({ decimal: ",", grouping: "" })];
  expect(point("0.10")).toEqual({ text: "0.10", unit: undefined });
  expect(point("+12")).toEqual({ text: "+12", unit: undefined });
  expect(point(".5")).toEqual({ text: ".5", unit: undefined });
  expect(point("1.20E-02")).toEqual({ text: "1.20E-02", unit: undefined });
  expect(comma("-0,100")).toEqual({ text: "-0.100", unit: undefined });
  expect(comma("\u22123,5")).toEqual({ text: "-3.5", unit: undefined });
  expect(comma("7")).toEqual({ text: "7", unit: undefined });
});

test("a number in the other convention is never guessed", () => {
  const codes = (decimal: "." | ",", grouping: string, texts: readonly string[]): readonly unknown[] =>
    texts.map((text) => {
      const read = numberReader({ decimal, grouping })(text);
      return "wrong" in read ? read.wrong.code : read.text;
    });
  expect(codes(".", "", ["1,5", "1,205", "1.205,5", "1 205", "1.2.3"])).toEqual(Array(5).fill("E_DECIMAL_SIGN"));
  expect(codes(",", "", ["1.5", "1.205", "1.205,5", "1'205,5"])).toEqual(Array(4).fill("E_DECIMAL_SIGN"));
  expect(codes(".", "", ["", "-", "abc", "1e", "0x10", "++1", "1-"])).toEqual(Array(7).fill("E_NUMBER"));
  expect(codes(",", "", ["NaN", "-inf", "1e999"])).toEqual(Array(3).fill("E_NUMBER_NOT_FINITE"));
  expect(codes(",", ".", ["1.205,5", "12.345.678", "1205,5", ",5"])).toEqual(["1205.5", "12345678", "1205.5", ".5"]);
  expect(codes(",", ".", ["1.20,5", "12.34", "1..205"])).toEqual(Array(3).fill("E_DECIMAL_SIGN"));
  expect(codes(",", " ", ["1\u202f205,5", "1\u00a0205"])).toEqual(["1205.5", "1205"]);
});

test("a unit of measure behind a number is read, and anything else there is no number", () => {
  const read = numberReader({ decimal: ",", grouping: "" });
  expect(read("1,25 mm")).toEqual({ text: "1.25", unit: "mm" });
  expect(read("44,1gf")).toEqual({ text: "44.1", unit: "gf" });
  expect(read("3 µm")).toEqual({ text: "3", unit: "um" });
  expect(read("3 furlongs")).toMatchObject({ wrong: { code: "E_NUMBER" } });
});

test("turning a sign twice gives the number back, and a zero has no sign", () => {
  expect([turnSign("0.10"), turnSign("-0.10"), turnSign("+2"), turnSign("-0.00"), turnSign("0")]).toEqual(["-0.10", "0.10", "-2", "0.00", "0"]); // prettier-ignore
  fc.assert(
    fc.property(fc.integer({ min: -99999, max: 99999 }), fc.integer({ min: 0, max: 4 }), (n, digits) => {
      const text = (n / 10 ** digits).toFixed(digits);
      if (Number(text) !== 0) expect(turnSign(turnSign(text))).toBe(text);
      expect(Number(turnSign(text)) + Number(text)).toBe(0);
    }),
    { seed: 7 },
  );
});

test("units of measure are known in several languages, and one letter's case matters", () => {
  expect(["mm", "[mm]", "Millimeter", "µm", "\u03bcm", "Zoll", "inches", "g", "Gramm", "gf", "N", "Newton", "mN", "cN", "s", "ms", "Frames"].map(unitOfWord)) // prettier-ignore
    .toEqual(["mm", "mm", "mm", "um", "um", "in", "in", "gf", "gf", "gf", "N", "N", "mN", "cN", "s", "ms", "frames"]);
  expect(["n", "MM", "Mn", "kg", "", "force"].map(unitOfWord)).toEqual(Array(6).fill(undefined));
  expect(["mm", "gf", "us", "frames"].map(kindOfUnit)).toEqual(["length", "force", "time", "frames"]);
});

test("a header states a unit of measure in brackets or behind a mark, and a word in its name is none", () => {
  const stated = ["Force [N]", "Weg (mm)", "force_gf", "Kraft / cN", "Travel, in", "Weg in mm", "displacement_mm", "N"];
  expect(stated.map(unitInHeader)).toEqual(["N", "mm", "gf", "cN", "in", "mm", "mm", "N"]);
  expect(["Force", "Weg mm", "Time (rel.)", "key_in_use"].map(unitInHeader)).toEqual(Array(4).fill(undefined));
});

test("a pattern of names takes its own part, and fits whole names at the end of a path", () => {
  const value = (pattern: string, path: string): unknown => {
    const parsed = parseFileNamePattern(pattern, "key", ["stroke", "cycle"]);
    return "wrong" in parsed ? parsed.wrong : parsed.valueIn(path);
  };
  expect(value("{key}.csv", "exports/F.csv")).toBe("F");
  expect(value("{key}.csv", "exports\\F.csv")).toBe("F");
  expect(value("{key}.csv", "F.csv.bak")).toBeUndefined();
  expect(value("{key}/down.csv", "a/KeyF/down.csv")).toBe("KeyF");
  expect(value("{key}/down.csv", "down.csv")).toBeUndefined();
  expect(value("lab_{key}_*_{cycle}.dat", "lab_T_up_2.dat")).toBe("T");
  expect(value("{key}+(1).csv", "F+(1).csv")).toBe("F");
  expect(value("{key}_*.csv", "a_b_c.csv")).toBe("a");
  expect(value("*.csv", "a.csv")).toContain("no place {key}");
  expect(value("{key}{key}", "a")).toContain("2 times");
  expect(value("{key}_{unit}", "a")).toContain("{unit}");
  expect(value("{key}_{", "a")).toContain("brace");
  expect(value("/x/{key}", "a")).toContain("start with a name");
});

test("the delimiter is the one that splits header and rows alike; a rare ragged row does not hide it", () => {
  expect(findDelimiter(["a;b", "1,5;2,5", "2,5;3,5"], true)).toBe(";");
  expect(findDelimiter(["a,b", "1.5,2.5"], true)).toBe(",");
  expect(findDelimiter(["1.5\t2.5", "1.5\t2.5"], false)).toBe("\t");
  expect(findDelimiter(["a b", "1  2", "3 4"], true)).toBe("spaces");
  expect(findDelimiter(['"a,b";"c"', '"1,2";"3"'], true)).toBe(";");
  expect(findDelimiter(["a,b", ...Array<string>(9).fill("1,2"), "1"], true)).toBe(",");
  expect(findDelimiter(["a", "1", "2"], true)).toBeUndefined();
  expect(findDelimiter([], false)).toBeUndefined();
});

test("cycles are counted for each key; a release belongs to the press before it in its file", () => {
  const spans = (text: string) =>
    text.split(" ").map((each, i) => ({ from: i, to: i + 1, key: each[0]!, cycle: null, stroke: each[1] === "p" ? "press" : "release" } as const)); // prettier-ignore
  const counter = cycleCounter();
  const numbers = (text: string): readonly number[] => counter.number(spans(text)).map(({ cycle }) => cycle);
  expect(numbers("Ap Ar Ap Bp Br Ar")).toEqual([1, 1, 2, 1, 1, 2]);
  expect(numbers("Ap Ap Ar")).toEqual([3, 4, 4]);
  expect(numbers("Br Br")).toEqual([2, 3]);
  expect(cycleCounter().number([{ from: 0, to: 1, key: "A", cycle: 9, stroke: "press" }])[0]?.cycle).toBe(9);
});

test("neighbouring lines left out for one reason are one stretch", () => {
  const left = (firstLine: number, lastLine: number, reason: string) => ({ firstLine, lastLine, reason });
  expect(joinLeftOut([left(5, 5, "b"), left(1, 2, "a"), left(3, 3, "a"), left(4, 4, "b"), left(9, 9, "b")])).toEqual([
    left(1, 3, "a"),
    left(4, 5, "b"),
    left(9, 9, "b"),
  ]);
  expect([lineRange(3, 3), lineRange(3, 5), shortRange(3, 3), shortRange(3, 5)]).toEqual(["line 3", "lines 3 to 5", "3", "3-5"]); // prettier-ignore
});
