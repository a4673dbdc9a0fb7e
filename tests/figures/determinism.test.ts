import { execFile } from "node:child_process";
import { createHash } from "node:crypto";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import { expect, test } from "vitest";
import { drawChart } from "../../src/figures/draw.js";
import { samples } from "../../tools/figure-sheet/samples.js";

const script = fileURLToPath(new URL("drawing-script.ts", import.meta.url));

async function drawElsewhere(words: readonly string[], env: Readonly<Record<string, string>>): Promise<string> {
  const { stdout } = await promisify(execFile)(process.execPath, ["--import", "tsx", script, ...words], {
    env: { ...process.env, ...env },
  });
  return stdout;
}

function drawHere(): string {
  const lines = samples().map(({ id, question, chart }) => {
    const { svg, csv, description } = drawChart(chart, id, { title: question });
    return `${id} ${createHash("sha256").update(`${svg}\n${csv}\n${description}`).digest("hex")}`;
  });
  return `${lines.sort().join("\n")}\n`;
}

test("a drawing has the same bytes after others, in another order, time zone and locale, and in a sealed process", async () => {
  const elsewhere = drawElsewhere(["reversed"], { TZ: "America/Caracas", LC_ALL: "de_DE.UTF-8", LANG: "de_DE.UTF-8" });
  const sealed = drawElsewhere(["sealed"], { TZ: "UTC", LC_ALL: "C" });
  const first = drawHere();
  expect(drawHere()).toBe(first);
  expect(first.split("\n").length).toBeGreaterThan(16);
  expect(await elsewhere).toBe(first);
  expect(await sealed).toBe(first);
});
