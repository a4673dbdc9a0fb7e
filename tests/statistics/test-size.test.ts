import { expect, test } from "vitest";
import { outcomeOf } from "../../tools/test-size/experiment.js";
import { experiments } from "../../tools/test-size/experiments.js";

// A smaller version of tools/test-size: 120 runs each, with the gates widened by four standard errors.
const slow = /REML|shift function|BCa/;

for (const experiment of experiments) {
  const runs = slow.test(experiment.name) ? 60 : 120;
  test(`${experiment.name} stays near its gate (${experiment.aim})`, () => {
    const { share, low, high, passes } = outcomeOf(experiment, runs, 7, 4);
    expect(passes, `share ${share}, gate ${low} to ${high}, ${runs} runs`).toBe(true);
  });
}
