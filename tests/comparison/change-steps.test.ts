import fc from "fast-check";
import { expect, test } from "vitest";
import { changeSteps, printedSteps } from "../../src/comparison/index.js";
import { isQuantity } from "../../src/metrology/index.js";
import { absent, own, present, quantity } from "./support.js";

const force = fc.double({ min: -100, max: 100, noNaN: true });

test("the steps add up to the total exactly, whatever the values", () => {
  fc.assert(
    fc.property(force, force, force, force, force, (a, b, c, d, e) => {
      const { reduction, retest, keys, settings, total } = changeSteps({
        published: own("a", a, 1),
        reducedAnew: own("b", b, 1),
        sameKeysAgain: own("c", c, 1),
        allKeys: own("d", d, 1),
        publishedAnew: own("e", e, 1),
      });
      const sum = [reduction, retest, keys, settings!].reduce((s, step) => s + present(step).value, 0);
      expect(present(total).value).toBe(sum);
      expect(sum).toBeCloseTo(e - a, 9);
    }),
    { seed: 4, numRuns: 300 },
  );
});

test("printed steps lead from the old to the new printed value to the last digit", () => {
  fc.assert(
    fc.property(force, force, force, force, fc.integer({ min: 0, max: 4 }), (a, b, c, d, places) => {
      const inputs = {
        published: own("a", a, 1),
        reducedAnew: own("b", b, 1),
        sameKeysAgain: own("c", c, 1),
        publishedAnew: own("d", d, 1),
      };
      const printed = printedSteps(inputs, places);
      const whole = (measured: typeof printed.total): number => Math.round(present(measured).value * 10 ** places) + 0;
      expect(whole(printed.published) + whole(printed.reduction) + whole(printed.retest) + whole(printed.keys)).toBe(
        whole(printed.publishedAnew),
      );
      expect(present(printed.retest).u).toBe(0);
      const exact = changeSteps(inputs);
      expect(Math.abs(present(printed.retest).value - present(exact.retest).value)).toBeLessThanOrEqual(
        1.0000001 * 10 ** -places,
      );
    }),
    { seed: 5, numRuns: 300 },
  );
});

test("the reduction of the same rows is a number without uncertainty, though each reduction has its own for the same noise", () => {
  const { reduction } = changeSteps({
    published: quantity(45, [{ id: "key/u01/s1/KeyF/cycles", u: 0.3 }]),
    reducedAnew: quantity(45.1, [{ id: "key/u01/s1/KeyF/cycles", u: 0.2 }]),
    sameKeysAgain: own("again", 45.2, 0.2),
    publishedAnew: own("all", 46, 0.2),
  });
  expect(present(reduction).value).toBeCloseTo(0.1, 12);
  expect(present(reduction).u).toBe(0);
});

test("a step has the uncertainty of its two ends with what they share cancelled", () => {
  const rig = { id: "rig/span", u: 0.4 };
  const { retest, total } = changeSteps({
    published: quantity(44, [rig]),
    reducedAnew: quantity(44, [rig, { id: "s1", u: 0.3 }]),
    sameKeysAgain: quantity(45, [rig, { id: "s2", u: 0.4 }]),
    publishedAnew: quantity(46, [rig, { id: "keys", u: 1 }]),
  });
  expect(present(retest).u).toBeCloseTo(0.5, 12);
  expect(present(total).u).toBeCloseTo(1, 12);
});

test("a method that changed no settings has no such step, and a missing end takes its two steps with it", () => {
  const steps = changeSteps({
    published: own("a", 1, 1),
    reducedAnew: own("b", 1, 1),
    sameKeysAgain: absent("the new session lacks KeyF"),
    publishedAnew: own("d", 2, 1),
  });
  expect(steps.settings).toBeNull();
  expect([steps.reduction, steps.retest, steps.keys, steps.total].map(isQuantity)).toEqual([true, false, false, true]);
  expect(steps.retest.absent && steps.retest.reason).toBe("the new session lacks KeyF");
});

test("values in two units of measure, and places that are none, are refused", () => {
  const inputs = { published: own("a", 1, 1), reducedAnew: own("b", 1, 1), sameKeysAgain: own("c", 1, 1) };
  expect(() => changeSteps({ ...inputs, publishedAnew: quantity(1, [], "mm") as never })).toThrow(/mm/);
  expect(() => printedSteps({ ...inputs, publishedAnew: own("d", 1, 1) }, NaN)).toThrow(/places/);
});
