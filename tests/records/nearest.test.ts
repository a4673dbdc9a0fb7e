import { expect, test } from "vitest";
import { nearestName } from "../../src/records/nearest.js";

test("the nearest name wins, in any case, and the first of equals", () => {
  expect(nearestName("figur", ["work", "figure", "table"])).toBe("figure");
  expect(nearestName("Figure", ["work", "figure"])).toBe("figure");
  expect(nearestName("keyz", ["keya", "keyb"])).toBe("keya");
});

test("two swapped neighbours count as one edit", () => {
  expect(nearestName("kesy", ["keys"])).toBe("keys");
  expect(nearestName("ekys", ["keys"])).toBe("keys");
  expect(nearestName("sky", ["keys"])).toBeUndefined();
});

test("a name that is not near gets none: one edit up to five characters, a third beyond, three at most", () => {
  expect(nearestName("abcde", ["abcxy"])).toBeUndefined();
  expect(nearestName("abcdef", ["abcdxy"])).toBe("abcdxy");
  expect(nearestName("abcdefghijklmnop", ["abcdefghijklWXYZ"])).toBeUndefined();
  expect(nearestName("x", ["abcdef"])).toBeUndefined();
  expect(nearestName("", ["a", "bc"])).toBeUndefined();
});

test("a name is not its own remedy, and without candidates there is none", () => {
  expect(nearestName("keys", ["keys"])).toBeUndefined();
  expect(nearestName("keys", [])).toBeUndefined();
});
