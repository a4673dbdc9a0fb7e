import { expect, test } from "vitest";
import { asMethod } from "../../src/build/as-method.js";
import type { KeystrokeMethod, LatencyMethod } from "../../src/records/archive.js";
import { readArchive } from "../../src/records/index.js";
import { repository } from "../cli/run-benchfolio.js";

const { methods } = readArchive(`${repository}data`);
const keystroke = (id: string): KeystrokeMethod => methods.get(id) as KeystrokeMethod;

test("old rows are reduced by the new method's numbers on the old method's keys and cycles", () => {
  const anew = asMethod(keystroke("keystroke@1"), keystroke("keystroke@2"));
  expect(anew.id).toBe("keystroke@2");
  expect(anew.keys).toEqual(["KeyF"]);
  expect(anew.cyclesUsed).toEqual([1, 2, 3, 4, 5]);
  expect(anew.smoothingWindow.value).toBe(0.12);
  expect(anew.prominence.value).toBe(3);
});

test("a method of another kind cannot reduce the rows", () => {
  const latency = methods.get("latency@1") as LatencyMethod;
  expect(() => asMethod<KeystrokeMethod | LatencyMethod>(keystroke("keystroke@1"), latency)).toThrow(
    /latency@1 is a latency method and cannot reduce the rows of keystroke@1/,
  );
});
