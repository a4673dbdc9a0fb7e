import { afterAll, expect, test } from "vitest";
import { openStandInCompiler, readCases, withFrontMatter } from "./support.js";
import { openStandInChild, printRun, runIn } from "./sealed-support.js";

const compiler = openStandInCompiler();
const child = openStandInChild({ stepLimitMs: 400 });

afterAll(() => child.close());

for (const { title, template, expected } of readCases("run.txt")) {
  test(title, async () => {
    const { compiled, parsed } = compiler.compile(template, "t.md");
    expect(printRun(await runIn(child, compiled!), parsed)).toBe(expected);
  });
}

test("a value names the work cells that it rests on, directly or through others", async () => {
  const { compiled, problems } = compiler.compile(
    withFrontMatter(
      "```ts work\nconst keys = unit.keys;\n```\n```ts work\nconst other = 1;\n```\n```ts work\nconst names = keys.map(({ key }) => key);\n```\n[= names.join() =] [= unit.name =]\n",
    ),
    "t.md",
  );
  expect(problems).toEqual([]);
  expect((await runIn(child, compiled!)).inlines.map(({ workCells }) => workCells)).toEqual([[0, 2], []]);
});

test("the same template gives the same run, whatever ran before it", async () => {
  const cases = readCases("run.txt").slice(0, 3);
  const runs = [];
  for (const { template } of [...cases, ...[...cases].reverse()]) {
    runs.push(JSON.stringify(await runIn(child, compiler.compile(template, "t.md").compiled!)));
  }
  expect(runs.slice(3).reverse()).toEqual(runs.slice(0, 3));
});
