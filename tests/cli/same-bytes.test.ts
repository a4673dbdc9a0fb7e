import { cpSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { inTemporaryFolder, readPages, repository, runBenchfolio } from "./run-benchfolio.js";

test("two drafts of the demo in other time zones, locales, folders and numbers of workers are equal byte for byte", async () => {
  await inTemporaryFolder(async (folder) => {
    const elsewhere = join(folder, "a longer name with spaces", "archive");
    cpSync(join(repository, "data"), elsewhere, { recursive: true });
    const first = join(folder, "first");
    const second = join(folder, "other", "second");
    const one = await runBenchfolio(["draft", "--out", first, "--workers", "1", "--json"], {
      env: { TZ: "America/St_Johns", LC_ALL: "de_DE.UTF-8", LANG: "de_DE.UTF-8" },
    });
    const two = await runBenchfolio(["draft", "--data", elsewhere, "--out", second, "--workers", "3", "--json"], {
      cwd: folder,
      env: { TZ: "Asia/Kathmandu", LC_ALL: "tr_TR.UTF-8", LANG: "tr_TR.UTF-8" },
    });
    expect([one.code, two.code]).toEqual([0, 0]);
    const pages = readPages(first);
    expect(Object.keys(pages).length).toBeGreaterThan(18);
    const again = readPages(second);
    expect(Object.keys(again)).toEqual(Object.keys(pages));
    for (const name of Object.keys(pages)) expect(again[name] === pages[name], name).toBe(true);
  });
}, 180_000);
