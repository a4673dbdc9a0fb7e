import { expect, test } from "vitest";
import { readArchive, readLatency } from "../../src/records/index.js";
import type { Override } from "./make-archive.js";
import { replacing, withArchive } from "./make-archive.js";

const presses = "units/u01/s2/presses.csv";

function latencyOf(files: Readonly<Record<string, Override>>): ReturnType<typeof readLatency> {
  return withArchive(files, (root) => {
    const archive = readArchive(root);
    return readLatency(archive, archive.units[0]!.sessions[1]!);
  });
}

test("every row of presses.csv is one reading, with empty frames as null and reasons as written", () => {
  const { readings, problems } = latencyOf({});
  expect(problems).toEqual([]);
  expect(
    readings.presses.map((p) => [p.press, p.reader, p.contactFrame, p.markFrame, p.responseFrame, p.outcome]),
  ).toEqual([
    [1, "reader-a", 100, 116, 131, "ok"],
    [1, "reader-b", 101, 116, 131, "ok"],
    [2, "reader-a", 1470, null, 1502, "ok"],
    [3, "reader-a", 2840, null, 2871, "ok"],
    [4, "reader-a", 4210, null, null, "missed"],
  ]);
  expect(readings.presses.map((p) => p.excluded)).toEqual(["", "", "The lamp flickered", "", ""]);
  expect(readings.presses[2]?.evidence).toEqual({
    kind: "rows",
    file: presses,
    firstLine: 4,
    lastLine: 4,
    columns: ["contact_frame", "mark_frame", "response_frame", "outcome", "excluded"],
  });
});

test("films and baseline read in canonical units of measure, with parts that were not separated as null", () => {
  const inSeconds = (text: string): string =>
    text.replace("pc_ms", "pc_us").replace(/^(\w+,\d,[\d.]*),(\d)\.(\d)/gm, "$1,$2$300");
  const { readings, problems } = latencyOf({ "units/u01/s2/baseline.csv": inSeconds });
  expect(problems).toEqual([]);
  expect(readings.films).toMatchObject([{ clip: "c1", frameRateHz: 1000, firstPress: 1, lastPress: 4 }]);
  expect(readings.baseline.map((s) => [s.block, s.shot, s.inputMs, s.pcMs, s.displayMs, s.totalMs])).toEqual([
    ["before", 1, 1.1, 6.2, 4.1, 11.4],
    ["before", 2, 1, 6.4, 4, 11.4],
    ["after", 1, null, 6.3, 4.2, null],
    ["after", 2, null, 6.1, 4.1, null],
  ]);
  expect(readings.baseline[0]?.evidence.columns).toEqual(["input_ms", "pc_us", "display_ms", "total_ms"]);
});

test("timings read in microseconds, from milliseconds exactly", () => {
  const { readings } = latencyOf({
    "units/u01/s2/timings.csv":
      "connection,press,start_ms,arrival_ms,excluded\nusb,1,0.1,8.35,\nusb,2,1000.1,1008.2,late\n",
  });
  expect(readings.timings.map((t) => [t.press, t.startUs, t.arrivalUs, t.excluded])).toEqual([
    [1, 100, 8350, ""],
    [2, 1000100, 1008200, "late"],
  ]);
});

test("a row with an error of its own is left out and named; the others are read", () => {
  const { readings, problems } = latencyOf({ [presses]: replacing("2840,,2871", "2871,,2840") });
  expect(problems.map((p) => `${p.code} ${p.line}`)).toEqual([
    "W_PRESSES_BELOW_MINIMUM 2",
    "E_RESPONSE_BEFORE_CONTACT 5",
  ]);
  expect(readings.presses.map((p) => p.press)).toEqual([1, 1, 2, 4]);
});

test("a press counts once however many read it", () => {
  const { problems } = latencyOf({ "methods/latency-1.yaml": replacing("presses: 3", "presses: 4") });
  expect(problems).toEqual([]);
});

test("a reader's `unreadable` leaves the press valid where another reader could read it", () => {
  const { problems } = latencyOf({ [presses]: replacing("reader-b,101,116,131,ok", "reader-b,,,,unreadable") });
  expect(problems).toEqual([]);
});
