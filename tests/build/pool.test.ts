import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { afterAll, expect, test } from "vitest";
import { openPool } from "../../src/build/pool.js";
import { repository } from "../cli/run-benchfolio.js";

const folder = mkdtempSync(join(tmpdir(), "benchfolio-test-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const entry = pathToFileURL(join(folder, "entry.mjs"));
writeFileSync(
  entry,
  `import { servePool } from ${JSON.stringify(pathToFileURL(`${repository}dist/build/pool.js`).href)};
   servePool((factor) => (job) => {
     if (job === "fail") throw new RangeError("no such job");
     if (job === "die") process.exit(3);
     if (job === "where") return [process.env.TZ, process.env.LC_ALL, process.env.HOME].join(" ");
     return job * factor;
   });`,
);

test("jobs are answered by their own results, whatever the number of processes", async () => {
  for (const size of [1, 3]) {
    const pool = openPool<number, number>(entry, { size, init: 10 });
    try {
      expect(await Promise.all([1, 2, 3, 4, 5].map((job) => pool.run(job)))).toEqual([10, 20, 30, 40, 50]);
    } finally {
      pool.close();
    }
  }
});

test("a job that throws rejects with its message, and the pool goes on", async () => {
  const pool = openPool<number | string, number>(entry, { size: 1, init: 2 });
  try {
    await expect(pool.run("fail")).rejects.toThrow("no such job");
    expect(await pool.run(4)).toBe(8);
  } finally {
    pool.close();
  }
});

test("a process that dies rejects its job and is replaced", async () => {
  const pool = openPool<number | string, number>(entry, { size: 1, init: 2 });
  try {
    await expect(pool.run("die")).rejects.toThrow(/ended early \(exit 3\)/);
    expect(await pool.run(4)).toBe(8);
  } finally {
    pool.close();
  }
});

test("children see one time zone and one locale and nothing else of the environment", async () => {
  const pool = openPool<string, string>(entry, { size: 1, init: 2 });
  try {
    expect(await pool.run("where")).toBe("UTC C ");
  } finally {
    pool.close();
  }
});

test("a pool without a process is refused, and a closed one takes no job", async () => {
  expect(() => openPool(entry, { size: 0, init: 1 })).toThrow(/at least one process/);
  const pool = openPool<number, number>(entry, { size: 1, init: 1 });
  pool.close();
  await expect(pool.run(1)).rejects.toThrow(/closed/);
});
