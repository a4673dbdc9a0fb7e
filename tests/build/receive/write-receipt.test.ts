import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { ReceiptRefused, writeReceipt } from "../../../src/build/receive/write-receipt.js";

const files = [
  { path: "force.csv", content: "key\n" },
  { path: "received/a.csv", content: new Uint8Array([1, 2, 3]) },
];

function inFolder(use: (unitFolder: string) => void): void {
  const folder = mkdtempSync(join(tmpdir(), "benchfolio-write-"));
  try {
    use(folder);
  } finally {
    chmodSync(folder, 0o755);
    rmSync(folder, { recursive: true, force: true });
  }
}

test("a session that has no folder gets one with everything in it", () => {
  inFolder((unitFolder) => {
    writeReceipt({ unitFolder, session: "s1", files });
    expect(readdirSync(unitFolder)).toEqual(["s1"]);
    expect(readFileSync(join(unitFolder, "s1/received/a.csv"))).toEqual(Buffer.from([1, 2, 3]));
  });
});

test("a session that has a description keeps it", () => {
  inFolder((unitFolder) => {
    mkdirSync(join(unitFolder, "s1"));
    writeFileSync(join(unitFolder, "s1/session.yaml"), "id: s1\n");
    writeReceipt({ unitFolder, session: "s1", files });
    expect(readdirSync(join(unitFolder, "s1")).toSorted()).toEqual(["force.csv", "received", "session.yaml"]);
    expect(readdirSync(unitFolder)).toEqual(["s1"]);
  });
});

test("what is there is not replaced, and what was moved before goes back", () => {
  inFolder((unitFolder) => {
    mkdirSync(join(unitFolder, "s1/received"), { recursive: true });
    expect(() => writeReceipt({ unitFolder, session: "s1", files })).toThrow(ReceiptRefused);
    expect(readdirSync(join(unitFolder, "s1"))).toEqual(["received"]);
    expect(readdirSync(join(unitFolder, "s1/received"))).toEqual([]);
    expect(readdirSync(unitFolder)).toEqual(["s1"]);
  });
});

test("a receipt under way, or cut off, keeps a second one out and is left alone", () => {
  inFolder((unitFolder) => {
    mkdirSync(join(unitFolder, ".receiving-s1"));
    writeFileSync(join(unitFolder, ".receiving-s1/force.csv"), "half");
    expect(() => writeReceipt({ unitFolder, session: "s1", files })).toThrow(/under way, or was cut off/);
    expect(readFileSync(join(unitFolder, ".receiving-s1/force.csv"), "utf8")).toBe("half");
    writeReceipt({ unitFolder, session: "s2", files });
    expect(existsSync(join(unitFolder, "s2/force.csv"))).toBe(true);
  });
});

test("a folder that cannot be written to is said so, with nothing left behind", () => {
  inFolder((unitFolder) => {
    writeFileSync(join(unitFolder, "s1"), "a file where the session should be");
    expect(() => writeReceipt({ unitFolder, session: "s1", files })).toThrow(/cannot be written: E/);
    expect(readdirSync(unitFolder)).toEqual(["s1"]);
    expect(() => writeReceipt({ unitFolder: join(unitFolder, "nowhere"), session: "s1", files })).toThrow(
      /cannot be written: ENOENT/,
    );
  });
});

test("signals are free again after a receipt", () => {
  inFolder((unitFolder) => {
    const before = process.listenerCount("SIGINT");
    writeReceipt({ unitFolder, session: "s1", files });
    expect(process.listenerCount("SIGINT")).toBe(before);
  });
});
