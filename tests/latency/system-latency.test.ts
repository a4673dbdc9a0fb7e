import { expect, test } from "vitest";
import { difference } from "../../src/metrology/derive.js";
import { isQuantity } from "../../src/metrology/quantity.js";
import { systemLatency } from "../../src/latency/system-latency.js";
import { subtractedMs } from "../../src/latency/subtracted-parts.js";
import { baselineOf, calibrationTerms, contextOf, filmMethod, frozen, shot, term, withTerms } from "./records.js";
import { drawing } from "./simulator.js";

const systemOf = (...args: Parameters<typeof systemLatency>) => {
  const { system } = systemLatency(...args);
  if (!isQuantity(system)) throw new Error(system.reason);
  return system;
};
const contribution = (quantity: ReturnType<typeof systemOf>, label: string): number =>
  quantity.components.find((component) => component.source.label === label)?.contribution ?? 0;

test("the parts that the method lists are subtracted, and never the baseline device's own input", () => {
  expect(systemOf(frozen(baselineOf()), frozen(contextOf())).value).toBeCloseTo(13, 12);
  expect(systemOf(baselineOf(), contextOf({ method: filmMethod({ subtract: ["pc"] }) })).value).toBe(3);
  expect(systemOf(baselineOf(), contextOf({ method: filmMethod({ subtract: ["display"] }) })).value).toBeCloseTo(
    10,
    12,
  );
});

test("the baseline's own noise is s / sqrt(m), with s within blocks, under the session's id", () => {
  const system = systemOf(baselineOf(20, 1), contextOf());
  const s = Math.sqrt(20 / 19);
  const noise = system.components.find((component) => component.source.id === "session/u07/s2/baseline")!;
  expect(noise.contribution).toBeCloseTo(s / Math.sqrt(40), 12);
  expect(noise.source.dof).toBe(38);
});

test("detector offset and input path cancel between two units on one rig; the sessions' own noise does not", () => {
  const one = systemOf(baselineOf(), contextOf());
  const other = systemOf(baselineOf(), contextOf({ unit: "u08" }));
  const apart = difference(one, other);
  expect(contribution(apart, "Baseline detector against film")).toBe(0);
  expect(contribution(apart, "Input path of the baseline device against the keyboard's")).toBe(0);
  expect(apart.u).toBeCloseTo(Math.SQRT2 * contribution(one, "Scatter of the baseline"), 12);
});

test("under another calibration of the rig they do not cancel", () => {
  const context = contextOf({ unit: "u08" });
  const later = {
    ...context,
    rig: { ...context.rig, calibration: { ...context.rig.calibration!, date: "2026-07-01" } },
  };
  const apart = difference(systemOf(baselineOf(), contextOf()), systemOf(baselineOf(), later));
  expect(apart.u).toBeGreaterThan(Math.SQRT2 * 0.6);
});

test("the rig's corrections are added: detector offset with the display, input path with the computer", () => {
  const terms = { ...calibrationTerms, detectorOffset: term(0.7, 0.6, "ms"), inputPath: term(-0.2, 0.5, "ms") };
  expect(systemOf(baselineOf(), withTerms(terms)).value).toBeCloseTo(13.5, 12);
  const display = withTerms(terms, { method: filmMethod({ subtract: ["display"] }) });
  expect(systemOf(baselineOf(), display).value).toBeCloseTo(10.7, 12);
  expect(
    contribution(systemOf(baselineOf(), display), "Input path of the baseline device against the keyboard's"),
  ).toBe(0);
});

test("blocks that agree within noise are not flagged, and carry no shift", () => {
  const { baseline, warnings, system } = systemLatency(baselineOf(20, 1, 0.1), contextOf());
  expect(baseline!.shift!.beyondNoise).toBe(false);
  expect(warnings).toEqual([]);
  expect(system.absent).toBe(false);
});

test("blocks that differ beyond noise flag the session with the test, and half the difference enters, rectangular", () => {
  const { baseline, warnings, system } = systemLatency(baselineOf(20, 1, 4), contextOf());
  expect(baseline!.shift!.beyondNoise).toBe(true);
  expect(baseline!.shift!.pValue).toBeLessThan(0.0001);
  expect(warnings[0]).toContain(
    'the baseline moved by 4.00 ms between block "before" and block "after", beyond its noise (Welch\'s test, p < 0.0001)',
  );
  if (system.absent) throw new Error(system.reason);
  expect(contribution(system, "Shift of the baseline between blocks")).toBeCloseTo(2 / Math.sqrt(3), 12);
  expect(system.value).toBeCloseTo(15, 12);
});

test("unequal blocks weigh alike, since the presses lie between them", () => {
  const shots = [...baselineOf(20, 1, 4)].filter((each) => each.block === "before" || each.shot <= 30);
  expect(systemOf(shots, contextOf()).value).toBeCloseTo(15, 12);
});

test("blocks without a shift are flagged in about 1 % of runs", () => {
  const draw = drawing(31);
  let flagged = 0;
  for (let run = 0; run < 3000; run++) {
    const shots = ["before", "after"].flatMap((block) =>
      Array.from({ length: 20 }, (_, i) => shot(block, i + 1, { displayMs: 10 + draw.normal(0, 1) })),
    );
    if (systemLatency(shots, contextOf()).baseline!.shift!.beyondNoise) flagged++;
  }
  console.log(`baseline flagged without a shift: ${(flagged / 3000).toFixed(4)}`);
  expect(flagged / 3000).toBeGreaterThan(0.004);
  expect(flagged / 3000).toBeLessThan(0.016);
});

test("where parts are empty, total minus input serves for computer and display together", () => {
  const shots = baselineOf().map((each) => ({ ...each, pcMs: null, displayMs: null }));
  expect(systemOf(shots, contextOf()).value).toBeCloseTo(13, 12);
  const { system } = systemLatency(shots, contextOf({ method: filmMethod({ subtract: ["display"] }) }));
  expect(system.absent && system.reason).toBe("0 baseline shots give display; two or more in one block are needed");
});

test("where the input is not separated either, the value declared for the rig is taken off, as a declared term", () => {
  const shots = baselineOf().map((each) => ({ ...each, pcMs: null, displayMs: null, inputMs: null }));
  expect(systemLatency(shots, contextOf()).system.absent).toBe(true);
  const terms = { ...calibrationTerms, baselineInput: term(2, 0.4, "ms") };
  const { system, warnings } = systemLatency(shots, withTerms(terms));
  if (system.absent) throw new Error(system.reason);
  expect(system.value).toBeCloseTo(13, 12);
  expect(contribution(system, "Input part of the baseline device (declared)")).toBe(-0.4);
  expect(warnings).toContain(
    "the baseline's total holds its device's own input part; the value declared for the rig is taken off",
  );
});

test("a part below 0 or not finite gives no subtraction, and a total below its input neither", () => {
  expect(subtractedMs(shot("before", 1, { pcMs: -1, totalMs: null }), ["pc", "display"], null)).toBeNull();
  expect(subtractedMs(shot("before", 1, { pcMs: NaN, totalMs: 1, inputMs: 2 }), ["pc", "display"], null)).toBeNull();
  expect(subtractedMs(shot("before", 1), ["pc", "display"], null)).toEqual({ valueMs: 13, declaredInput: false });
});

test("shots that do not give the parts are counted, few shots and several detectors said", () => {
  const shots = [
    ...baselineOf(5),
    shot("after", 99, { pcMs: null, totalMs: null }),
    shot("after", 100, { detector: "other" }),
  ];
  expect(systemLatency(shots, contextOf()).warnings).toEqual([
    "1 of 12 baseline shots do not give pc and display: not used",
    'baseline block "before" has 5 usable shots; the method asks for 20',
    'baseline block "after" has 6 usable shots; the method asks for 20',
    "the baseline was taken with several detectors: photodiode, other",
  ]);
});

test("one block alone cannot show a shift, and says so", () => {
  const { baseline, warnings } = systemLatency(
    baselineOf().filter((each) => each.block === "before"),
    contextOf(),
  );
  expect(baseline!.shift).toBeNull();
  expect(warnings).toContain('the baseline has one block, "before": a shift during the session cannot be seen');
});

test("no baseline, one shot, and a method that subtracts nothing are absent with the reason", () => {
  const reason = (shots: Parameters<typeof systemLatency>[0], context = contextOf()) => {
    const { system } = systemLatency(shots, context);
    return system.absent ? system.reason : "present";
  };
  expect(reason([])).toBe("no baseline was recorded in this session");
  expect(reason([shot("before", 1)])).toBe("1 baseline shots give pc and display; two or more in one block are needed");
  expect(reason(baselineOf(), contextOf({ method: filmMethod({ subtract: [] }) }))).toBe(
    "the method subtracts no part of the system's latency",
  );
});

test("a rig without the terms is named: they are not in the budget", () => {
  const { warnings } = systemLatency(baselineOf(), withTerms({}));
  expect(warnings).toEqual([
    "no calibration of rig camera-1 in force states the baseline detector against film: it is not in the budget",
    "no calibration of rig camera-1 in force states the baseline device's input path: it is not in the budget",
  ]);
});

test("a calibration term in another unit of measure is refused", () => {
  expect(() => systemLatency(baselineOf(), withTerms({ detectorOffset: term(0, 0.6, "mm") }))).toThrow(
    "calibration term detectorOffset of rig camera-1 is in mm; it must be in ms",
  );
  expect(() => systemLatency(baselineOf(), withTerms({ detectorOffset: term(0, NaN, "ms") }))).toThrow("u = NaN");
});

test("every part of every block is tabled, with the subtracted sum", () => {
  const shots = baselineOf(3).map((each) => ({ ...each, inputMs: null }));
  const { parts } = systemLatency(shots, contextOf()).baseline!;
  expect(parts.map((each) => [each.block, each.part, each.shots])).toEqual(
    ["before", "after"].flatMap((block) => [
      [block, "input", 0],
      [block, "pc", 3],
      [block, "display", 3],
      [block, "total", 3],
      [block, "subtracted", 3],
    ]),
  );
  const input = parts[0]!.mean;
  expect(input.absent && input.reason).toBe('the baseline does not separate the part "input" in block "before"');
});

test("blocks that do not scatter differ beyond noise by any amount, and not at all where they are equal", () => {
  expect(systemLatency(baselineOf(20, 0), contextOf()).baseline!.shift).toMatchObject({ t: null, pValue: 1, dof: 38 });
  const moved = systemLatency(baselineOf(20, 0, 0.5), contextOf());
  expect(moved.baseline!.shift).toMatchObject({ t: null, pValue: 0, beyondNoise: true });
  expect(moved.warnings[0]).toContain("p < 0.0001");
});
