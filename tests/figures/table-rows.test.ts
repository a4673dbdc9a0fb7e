import { expect, test } from "vitest";
import { table } from "../../src/figures/index.js";

const columns = [{ key: "forse", label: "Reset force" }];

test("a column that no row has names the row's near one", () => {
  expect(() => table(columns, [{ force: "a" }], { finding: "x" })).toThrow(
    `row 1 has no value for column "forse"; did you mean the rows' "force"?`,
  );
});

test("a value that a row leaves out is asked for as null", () => {
  expect(() => table(columns, [{ forse: "a" }, {}], { finding: "x" })).toThrow(
    'row 2 has no value for column "forse"; use null for none',
  );
});

test("a value of no column is to be left out", () => {
  expect(() => table(columns, [{ forse: "a", key: "b" }], { finding: "x" })).toThrow(
    'row 1 has a value for "key", which is no column; leave it out',
  );
});
