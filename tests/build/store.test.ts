import { mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { openStore, storeKey } from "../../src/build/store.js";
import { pack } from "../../src/metrology/pack.js";

const folder = mkdtempSync(join(tmpdir(), "benchfolio-test-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const files = [
  { path: "units/u01/s1/force.csv", sha256: "aa" },
  { path: "methods/keystroke-2.yaml", sha256: "bb" },
];
const parts = { version: "0.1.0", digest: "cc", files };

test("the key does not depend on the order of the files, and on everything else", () => {
  const key = storeKey(parts);
  expect(storeKey({ ...parts, files: [...files].reverse() })).toBe(key);
  expect(storeKey({ ...parts, version: "0.1.1" })).not.toBe(key);
  expect(storeKey({ ...parts, digest: "cd" })).not.toBe(key);
  expect(storeKey({ ...parts, files: [{ ...files[0]!, sha256: "ab" }, files[1]!] })).not.toBe(key);
  expect(storeKey({ ...parts, files: files.slice(0, 1) })).not.toBe(key);
});

test("what was written is found again, and nothing else is left in the folder", () => {
  const store = openStore(folder, { reuse: true });
  expect(store.read("one")).toBeNull();
  store.write("one", pack({ a: 1 }));
  expect(store.read("one")).toEqual(pack({ a: 1 }));
  expect(readdirSync(folder)).toEqual(["one.json"]);
});

test("a damaged file counts as absent", () => {
  writeFileSync(join(folder, "two.json"), '{"version":1,"sou');
  writeFileSync(join(folder, "three.json"), '{"version":99}');
  const store = openStore(folder, { reuse: true });
  expect(store.read("two")).toBeNull();
  expect(store.read("three")).toBeNull();
});

test("a store that does not reuse finds nothing and still keeps", () => {
  const store = openStore(folder, { reuse: false });
  store.write("four", pack([]));
  expect(store.read("four")).toBeNull();
  expect(openStore(folder, { reuse: true }).read("four")).toEqual(pack([]));
});
