import fc from "fast-check";
import { expect, test } from "vitest";
import { budgetOf } from "../../src/metrology/budget.js";
import { difference } from "../../src/metrology/derive.js";
import { evidenceLeaves } from "../../src/metrology/evidence.js";
import { pack, unpack } from "../../src/metrology/pack.js";
import type { Measured, Quantity } from "../../src/metrology/quantity.js";
import { choosePreTravel, latencies, reduceLatency, unnamedKey } from "../../src/latency/index.js";
import type { ConnectionLatency } from "../../src/latency/model.js";
import type { PressReading } from "../../src/records/readings.js";
import {
  baselineOf,
  contextOf,
  film,
  filmMethod,
  frozen,
  preTravelOf,
  press,
  pressesOf,
  readings,
  stated,
  timing,
  withTerms,
} from "./records.js";

const frames = [45, 47, 50, 52, 49, 48, 46, 51, 47, 55, 49, 48, 50, 46];

const usb = (presses: readonly PressReading[], context = contextOf()): ConnectionLatency =>
  reduceLatency(frozen(readings({ presses })), frozen(context)).connections[0]!;

function present<S extends string>(measured: Measured<S>): Quantity<S> {
  if (measured.absent) throw new Error(measured.reason);
  return measured;
}

const reasonOf = (measured: Measured): string => (measured.absent ? measured.reason : `present: ${measured.value}`);

test("L is film time minus system latency minus travel time, and each is a quantity", () => {
  const found = usb(pressesOf(frames));
  const mean = frames.reduce((a, b) => a + b, 0) / 14;
  expect(present(found.film).value).toBeCloseTo(mean, 12);
  expect(present(found.system).value).toBeCloseTo(13, 12);
  expect(present(found.travel).value).toBeCloseTo(2000 / 120, 12);
  expect(present(found.latency).value).toBeCloseTo(mean - 13 - 2000 / 120, 12);
  expect(found.valid).toBe(14);
  expect(found.kept).toBe(11);
  expect(found.warnings).toEqual([]);
});

test("the budget of L names every term, and so does that of L_k", () => {
  const labels = (quantity: Quantity): string[] => budgetOf(quantity).lines.map((line) => line.label);
  const common = [
    "Baseline detector against film",
    "Zero offset between the tester's touch and contact",
    "Input path of the baseline device against the keyboard's",
    "Plunger acceleration over the pre-travel",
    "Reader's own offset at contact",
    "Reader's own offset at response",
    "Plunger speed over the pre-travel",
    "Pre-travel at plunger speed against tester speed (assumed)",
    "Repeats of KeyF",
    "Scatter of the baseline",
    "Displacement scale of the tester",
    "Clock of the camera or timer",
  ];
  const found = usb(pressesOf(frames));
  expect(new Set(labels(present(found.latency)))).toEqual(new Set([...common, "Scatter of presses"]));
  expect(new Set(labels(present(found.latencyKept)))).toEqual(
    new Set([...common, "Scatter of presses, 11 fastest of 14"]),
  );
});

test("u of the press scatter is s / sqrt(n) for L and s_w sqrt(n) / k with k - 1 degrees of freedom for L_k", () => {
  const found = usb(pressesOf(frames));
  const sorted = [...frames].sort((a, b) => a - b);
  const sd = (values: readonly number[]): number => {
    const mean = values.reduce((a, b) => a + b, 0) / values.length;
    return Math.sqrt(values.reduce((a, b) => a + (b - mean) ** 2, 0) / (values.length - 1));
  };
  const line = (quantity: Quantity, label: string) => budgetOf(quantity).lines.find((each) => each.label === label)!;
  expect(line(present(found.latency), "Scatter of presses").contribution).toBeCloseTo(sd(frames) / Math.sqrt(14), 12);
  const kept = line(present(found.latencyKept), "Scatter of presses, 11 fastest of 14");
  const winsorized = sorted.map((value) => Math.min(value, sorted[10]!));
  expect(kept.contribution).toBeCloseTo((sd(winsorized) * Math.sqrt(14)) / 11, 12);
  expect(kept.dof).toBeCloseTo(10, 9);
  expect(present(found.keptMinusAll).value).toBeCloseTo(
    present(found.latencyKept).value - present(found.latency).value,
    10,
  );
});

test("slower presses are not kept, with a reason that holds for ties too, and never excluded", () => {
  const found = usb(pressesOf(frames));
  const slow = found.presses.filter((each) => each.standing === "not_kept");
  expect(slow.map((each) => each.press)).toEqual([4, 8, 10]);
  expect(slow[0]!.reason).toBe("no faster than the 11 kept of 14 valid presses");
  expect(found.presses.some((each) => each.standing === "excluded")).toBe(false);
});

test("a press excluded by hand keeps its latency on the page and stays out of L", () => {
  const presses = pressesOf(frames).map((each) =>
    each.press === 10 ? { ...each, excluded: "a hand shook the desk" } : each,
  );
  const found = usb(presses);
  const excluded = found.presses[9]!;
  expect([excluded.standing, excluded.reason]).toEqual(["excluded", "a hand shook the desk"]);
  expect(present(excluded.latency).value).toBeCloseTo(55 - 13 - 2000 / 120, 12);
  expect(found.valid).toBe(13);
  expect(found.details.counts).toMatchObject({ recorded: 14, valid: 13, excluded: 1 });
  expect(found.warnings).toEqual(["10 of 13 valid presses are kept, the share that the method keeps"]);
});

test("missed, double, unreadable and impossible presses are flagged, and the rest gives the result", () => {
  const presses = pressesOf(frames).map((each): PressReading => {
    if (each.press === 2) return { ...each, outcome: "missed", responseFrame: null };
    if (each.press === 5) return { ...each, outcome: "double" };
    if (each.press === 7) return { ...each, responseFrame: each.contactFrame! - 4 };
    if (each.press === 9) return { ...each, outcome: "unreadable", responseFrame: null };
    return each;
  });
  const found = usb(presses);
  expect(found.details.counts).toEqual({
    recorded: 14,
    valid: 10,
    excluded: 0,
    missed: 1,
    double: 1,
    unreadable: 1,
    impossible: 1,
    incomplete: 0,
  });
  expect(found.warnings).toEqual([
    "no response: press 2",
    "two responses: press 5",
    "unreadable: press 9",
    "response before contact: press 7",
    "8 of 10 valid presses are kept, the share that the method keeps",
  ]);
  expect(found.presses.filter((each) => each.standing === "invalid").map((each) => each.press)).toEqual([2, 5, 7, 9]);
  expect(found.presses[6]!.reason).toBe("reader-a read the response 4 frames before contact");
  expect(present(found.presses[6]!.observed).value).toBe(-4);
  expect(reasonOf(found.presses[6]!.latency)).toBe("reader-a read the response 4 frames before contact");
});

test("a negative latency is reported as such, never clipped", () => {
  const found = usb(pressesOf(frames.map((count) => count - 25)));
  expect(present(found.latency).value).toBeLessThan(0);
  expect(found.warnings[0]).toMatch(
    /^the latency is negative \(\u22125\.88 ms\): more was subtracted than was observed$/,
  );
  expect(present(found.presses[0]!.latency).value).toBeLessThan(0);
});

test("the page is warned where the travel term's U exceeds the latency itself", () => {
  const found = usb(pressesOf(frames.map((count) => count - 18)));
  expect(found.warnings.at(-1)).toMatch(
    /^the travel term's U exceeds the latency itself \(1\.52 ms against 1\.12 ms\): this latency is mostly travel$/,
  );
});

test("adding whole frames to both readings changes nothing; adding them to the response shifts the latency alone", () => {
  fc.assert(
    fc.property(fc.integer({ min: -500, max: 100000 }), fc.integer({ min: 0, max: 300 }), (both, later) => {
      const base = pressesOf(frames);
      const shifted = base.map((each) => ({
        ...each,
        contactFrame: each.contactFrame! + both,
        responseFrame: each.responseFrame! + both,
      }));
      const delayed = base.map((each) => ({ ...each, responseFrame: each.responseFrame! + later }));
      const before = usb(base);
      expect(present(usb(shifted).latency).value).toBeCloseTo(present(before.latency).value, 9);
      const after = usb(delayed);
      expect(present(after.latency).value).toBeCloseTo(present(before.latency).value + later, 9);
      expect(present(after.latencyKept).value).toBeCloseTo(present(before.latencyKept).value + later, 9);
      expect(present(after.pressSd).value).toBeCloseTo(present(before.pressSd).value, 9);
      expect(present(after.latency).u).toBeCloseTo(present(before.latency).u, 3);
    }),
    { seed: 4, numRuns: 25 },
  );
});

test("the order of rows does not matter", () => {
  const base = pressesOf(frames).flatMap((each) => [
    each,
    { ...each, reader: "reader-b", responseFrame: each.responseFrame! + (each.press % 2) },
  ]);
  const expected = pack(reduceLatency(readings({ presses: base }), contextOf()));
  fc.assert(
    fc.property(fc.shuffledSubarray(base, { minLength: base.length, maxLength: base.length }), (presses) => {
      expect(pack(reduceLatency(readings({ presses }), contextOf()))).toEqual(expected);
    }),
    { seed: 5, numRuns: 25 },
  );
});

test("half the frame rate with half the frames gives the same film time, and twice the frames' own uncertainty", () => {
  const even = frames.map((count) => 2 * Math.round(count / 2));
  const fine = usb(pressesOf(even));
  const presses = pressesOf(even).map((each) => ({
    ...each,
    contactFrame: each.contactFrame! / 2,
    responseFrame: each.responseFrame! / 2,
  }));
  const coarse = reduceLatency(
    readings({ presses, films: [film("c1", 500)] }),
    contextOf({ method: filmMethod({ frameRate: stated(500, "Hz") }) }),
  ).connections[0]!;
  expect(present(coarse.film).value).toBeCloseTo(present(fine.film).value, 10);
  const ends = (found: ConnectionLatency): number =>
    budgetOf(present(found.presses[0]!.observed)).lines.find((line) => line.label === "Frames of the film, both ends")!
      .contribution;
  expect(ends(coarse) / ends(fine)).toBeCloseTo(2, 10);
});

test("two units on one rig: detector, input path, plunger and tester cancel in the difference of their latencies", () => {
  const one = present(usb(pressesOf(frames)).latency);
  const other = present(usb(pressesOf(frames), contextOf({ unit: "u08" })).latency);
  const lines = budgetOf(difference(one, other)).lines.map((line) => line.label);
  for (const shared of [
    "Baseline detector against film",
    "Plunger speed over the pre-travel",
    "Displacement scale of the tester",
  ]) {
    expect(lines).not.toContain(shared);
  }
  expect(lines).toContain("Scatter of the baseline");
  expect(lines).toContain("Reader's own offset at contact");
});

test("two connections of one session share its baseline, so that their difference has none of it", () => {
  const receiver = pressesOf(frames, { connection: "receiver" });
  const { connections } = reduceLatency(readings({ presses: [...pressesOf(frames), ...receiver] }), contextOf());
  const apart = difference(present(connections[0]!.latency), present(connections[1]!.latency));
  expect(budgetOf(apart).lines.map((line) => line.label)).toEqual(["Scatter of presses"]);
  expect(connections[1]!.warnings).toContain("session.yaml records no settings for this connection");
});

test("keys of different travel are subtracted their own, and what they share does not shrink", () => {
  const presses = pressesOf(frames).map((each, i) =>
    i % 2 === 0 ? each : { ...each, key: "KeyA", responseFrame: each.responseFrame! + 10 },
  );
  const context = contextOf({
    preTravel: {
      KeyF: { preTravel: preTravelOf("KeyF", 2), of: "pressed_key" },
      KeyA: { preTravel: preTravelOf("KeyA", 3.2), of: "mean_of_other_keys" },
    },
  });
  const found = usb(presses, context);
  expect(present(found.latency).value).toBeCloseTo(present(usb(pressesOf(frames)).latency).value, 10);
  const speed = budgetOf(present(found.travel)).lines.find(
    (line) => line.label === "Plunger speed over the pre-travel",
  )!;
  expect(speed.contribution).toBeCloseTo((((2000 + 3200) / 2 / 120) * 2) / 120, 10);
  expect(found.details.travelBasis).toContain("mean pre-travel of the other keys");
});

test("equal presses: sd 0, the frame's own uncertainty stays, median and P90 keep a frame's resolution", () => {
  const found = usb(pressesOf(Array<number>(14).fill(50)));
  expect(present(found.pressSd).value).toBe(0);
  const label = "Frames of the film, both ends";
  expect(budgetOf(present(found.latency)).lines.find((line) => line.label === label)!.contribution).toBeCloseTo(
    1 / Math.sqrt(6 * 14),
    12,
  );
  const median = budgetOf(present(found.median)).lines.find((line) => line.label === "Frames of the film, median")!;
  expect(median.contribution).toBeCloseTo(1 / Math.sqrt(12), 12);
  expect(found.details.skewness).toBeNull();
  expect(present(found.keptMinusAll).value).toBe(0);
});

test("a locked rhythm adds its period undivided, says so, and leaves the camera's share undivided too", () => {
  const presses = frames.map((count, i) => press(i + 1, { contactFrame: i * 1368, responseFrame: i * 1368 + count }));
  const settings = { usb: { pollingSet: "125 Hz", debounce: "not adjustable", adapter: "none" } };
  const found = usb(presses, contextOf({ settings, refreshRate: undefined }));
  const lines = budgetOf(present(found.latency)).lines;
  expect(lines.find((line) => line.label === "Phase of the polling interval (locked)")!.contribution).toBeCloseTo(
    8 / Math.sqrt(12),
    12,
  );
  expect(
    lines.find((line) => line.label === "Phase of the camera frame (not known to be random)")!.contribution,
  ).toBeCloseTo(1 / Math.sqrt(6), 12);
  expect(found.warnings[0]).toBe(
    "the phase against the polling interval is locked: contact times gather at one phase (n = 14, r = 1.00); " +
      "2.31 ms are added, undivided",
  );
});

test("locked phases and equal presses: only the undivided terms are left", () => {
  const presses = Array.from({ length: 14 }, (_, i) =>
    press(i + 1, { contactFrame: i * 1368, responseFrame: i * 1368 + 50 }),
  );
  const lines = budgetOf(present(usb(presses).film)).lines.map((line) => line.label);
  expect(lines).not.toContain("Scatter of presses");
  expect(lines).toContain("Phase of the camera frame (not known to be random)");
});

test("below the method's minimum there is no result, and every press is still there", () => {
  const found = usb(pressesOf(frames.slice(0, 8)));
  for (const result of [
    found.latency,
    found.latencyKept,
    found.median,
    found.p90,
    found.keptMinusAll,
    found.pressSd,
    found.film,
  ]) {
    expect(reasonOf(result)).toBe("8 of 8 presses are valid; the method needs at least 9");
  }
  expect(found.presses).toHaveLength(8);
  expect(found.presses[0]!.standing).toBe("not_kept");
  expect(present(found.presses[0]!.latency).value).toBeCloseTo(45 - 13 - 2000 / 120, 12);
  expect([found.valid, found.kept]).toEqual([8, 0]);
});

test("no presses, one press, all excluded: absent with the reason, and no number", () => {
  const loose = contextOf({ method: filmMethod({ minPresses: 1 }) });
  expect(reasonOf(usb([]).latency)).toBe("no presses are recorded for this connection");
  expect(reduceLatency(readings(), contextOf()).warnings).toContain("no presses are recorded in this session");
  expect(reasonOf(usb(pressesOf([50]), loose).latency)).toBe("1 of 1 presses are valid; the method needs at least 2");
  const excluded = usb(pressesOf(frames, { excluded: "wrong key" }));
  expect(reasonOf(excluded.latency)).toBe("0 of 14 presses are valid; the method needs at least 9");
  expect(reasonOf(excluded.travel)).toBe("no valid press");
  expect(excluded.presses.every((each) => each.standing === "excluded" && each.reason === "wrong key")).toBe(true);
});

test("a share that keeps one press gives L but no L_k", () => {
  const context = contextOf({ method: filmMethod({ presses: 14, kept: 1, minPresses: 2 }) });
  const found = usb(pressesOf(frames), context);
  expect(found.latency.absent).toBe(false);
  expect(reasonOf(found.latencyKept)).toBe("the method's share keeps 1 of 14 presses: no scatter");
});

test("a missing term that the method subtracts makes the latency absent, never a number with less taken off", () => {
  const none = reduceLatency(readings({ presses: pressesOf(frames), baseline: [] }), contextOf()).connections[0]!;
  expect(reasonOf(none.latency)).toBe("no baseline was recorded in this session");
  expect(none.film.absent).toBe(false);
  expect(reasonOf(none.presses[0]!.latency)).toBe("no baseline was recorded in this session");
  expect(reasonOf(usb(pressesOf(frames), contextOf({ preTravel: {} })).latencyKept)).toBe(
    "no pre-travel is known for KeyF",
  );
  expect(reasonOf(usb(pressesOf(frames), withTerms({})).median)).toContain("give the plunger's speed");
});

test("a method that subtracts nothing gives the film time, and says that nothing is subtracted", () => {
  const context = contextOf({ method: filmMethod({ subtract: [], subtractTravel: false }), preTravel: {} });
  const reduced = reduceLatency(readings({ presses: pressesOf(frames) }), context);
  const found = reduced.connections[0]!;
  expect(present(found.latency).value).toBe(present(found.film).value);
  expect(reasonOf(found.system)).toBe("the method subtracts no part of the system's latency");
  expect(reasonOf(found.travel)).toBe("the method does not subtract travel time");
  expect(reduced.baseline).toBeNull();
});

test("direct injection: the same statistics from time stamps, the timer's step for the frame, no travel", () => {
  const arrivals = frames.map((count, i) => timing(i + 1, i * 1370123, i * 1370123 + count * 1000));
  const context = contextOf({
    method: filmMethod({ observes: "injection", subtract: [], subtractTravel: false }),
    preTravel: {},
  });
  const reduced = reduceLatency(readings({ timings: arrivals, baseline: [] }), context);
  const found = reduced.connections[0]!;
  expect(present(found.latency).value).toBeCloseTo(frames.reduce((a, b) => a + b, 0) / 14, 12);
  expect(found.kept).toBe(11);
  expect(budgetOf(present(found.latency)).lines.map((line) => line.label)).toEqual(
    expect.arrayContaining(["Scatter of presses", "Clock of the camera or timer"]),
  );
  expect(found.details.locks.map((lock) => lock.period)).toEqual(["polling", "scan"]);
  expect(found.details.readers).toBeNull();
  expect(reduced.contents.filter((row) => row.state === "outside").map((row) => row.stage)).toEqual([
    "mechanics",
    "application",
    "display",
  ]);
});

test("injection that claims to subtract travel subtracts none and says so", () => {
  const arrivals = frames.map((count, i) => timing(i + 1, i * 1370123, i * 1370123 + count * 1000));
  const context = contextOf({ method: filmMethod({ observes: "injection", subtract: [] }) });
  const reduced = reduceLatency(readings({ timings: arrivals }), context);
  expect(reduced.warnings).toContain(
    "latency@1 subtracts travel, but direct injection has none: nothing is subtracted",
  );
  expect(present(reduced.connections[0]!.latency).value).toBeCloseTo(frames.reduce((a, b) => a + b, 0) / 14, 12);
});

test("a light on arrival subtracts the travel of the only key it can mean", () => {
  const arrivals = frames.map((count, i) => timing(i + 1, i * 1370123, i * 1370123 + count * 1000));
  const context = contextOf({ method: filmMethod({ observes: "light", subtract: [] }) });
  const found = reduceLatency(readings({ timings: arrivals }), context).connections[0]!;
  expect(present(found.travel).value).toBeCloseTo(2000 / 120, 12);
  const two = { ...context.preTravel, KeyA: context.preTravel["KeyF"]! };
  const unclear = reduceLatency(readings({ timings: arrivals }), { ...context, preTravel: two }).connections[0]!;
  expect(reasonOf(unclear.latency)).toBe("no pre-travel is known for the pressed key");
  const mean = choosePreTravel(
    unnamedKey,
    { KeyA: preTravelOf("KeyA", 1.8), KeyF: preTravelOf("KeyF", 2.2) },
    { unit: "u07" },
  );
  const byMean = reduceLatency(readings({ timings: arrivals }), {
    ...context,
    preTravel: { ...two, [unnamedKey]: mean },
  });
  expect(present(byMean.connections[0]!.travel).value).toBeCloseTo(2000 / 120, 12);
  expect(byMean.connections[0]!.details.travelBasis).toContain("mean pre-travel of the other keys");
});

test("rows that the method does not observe are said to be unused", () => {
  const both = readings({ presses: pressesOf(frames), timings: [timing(1, 0, 1)] });
  expect(reduceLatency(both, contextOf()).warnings).toContain(
    "1 rows of timings.csv are not used: latency@1 observes film",
  );
  const injection = contextOf({ method: filmMethod({ observes: "injection", subtractTravel: false }) });
  expect(reduceLatency(both, injection).warnings).toContain(
    "14 rows of presses.csv are not used: latency@1 observes injection",
  );
});

test("a clip with two frame rates, a frame rate beside the method's and a rig without calibration are said", () => {
  const context = contextOf({ rig: { id: "camera-1", calibration: null } });
  const films = [film("c1", 1000), film("c1", 500)];
  const reduced = reduceLatency(readings({ presses: pressesOf(frames), films }), context);
  expect(reduced.warnings).toContain("films.csv gives clip c1 several frame rates; the last is used");
  expect(reduced.warnings).toContain("rig camera-1 has no calibration in force: its terms are not in the budget");
  expect(reduced.connections[0]!.warnings).toContain("film at 500 Hz; the method asks for 1000 Hz");
});

test("connections of session.yaml without a press are there, absent", () => {
  const settings = { ...contextOf().settings, bluetooth: { pollingSet: "not recorded", debounce: "", adapter: "" } };
  const reduced = reduceLatency(readings({ presses: pressesOf(frames) }), contextOf({ settings }));
  expect(latencies(reduced).map((each) => each.connection)).toEqual(["usb", "bluetooth"]);
  expect(reasonOf(reduced.connections[1]!.latency)).toBe("no presses are recorded for this connection");
});

test("the evidence of a latency leads to the rows of its presses, film, baseline, calibration and pre-travel", () => {
  const found = usb(pressesOf(frames));
  const files = new Set(evidenceLeaves(present(found.latency).evidence).map((leaf) => leaf.file));
  expect(files).toEqual(
    new Set([
      "units/u07/s2/presses.csv",
      "units/u07/s2/films.csv",
      "units/u07/s2/baseline.csv",
      "methods/latency-1.yaml",
      "rigs/camera-1/rig.yaml",
      "units/u07/s1/force.csv",
    ]),
  );
});

test("a reduction is plain data and quantities: it packs and comes back equal", () => {
  const reduced = reduceLatency(readings({ presses: pressesOf(frames), baseline: baselineOf(20, 1, 4) }), contextOf());
  const packed = JSON.parse(JSON.stringify(pack(reduced))) as ReturnType<typeof pack>;
  expect(pack(unpack(packed))).toEqual(pack(reduced));
});

test("a method that keeps more than it presses is refused", () => {
  const context = contextOf({ method: filmMethod({ kept: 15 }) });
  expect(() => reduceLatency(readings(), context)).toThrow(
    "latency@1 keeps 15 of 14 presses; it must keep 1 to all of them",
  );
});

test("hostile readings never throw and never give a number that is not finite", () => {
  const frame = fc.oneof(fc.integer({ min: -10, max: 5000 }), fc.constant(null), fc.constant(NaN));
  const row = fc.record({
    connection: fc.constantFrom("usb", "receiver"),
    key: fc.constantFrom("KeyF", "KeyA"),
    clip: fc.constantFrom("c1", "c2", "unknown"),
    press: fc.integer({ min: 1, max: 20 }),
    reader: fc.constantFrom("reader-a", "reader-b"),
    contactFrame: frame,
    markFrame: frame,
    responseFrame: frame,
    outcome: fc.constantFrom(
      "ok" as const,
      "ok" as const,
      "ok" as const,
      "missed" as const,
      "double" as const,
      "unreadable" as const,
    ),
    excluded: fc.constantFrom("", "", "", "a reason"),
  });
  const method = filmMethod({ minPresses: 2 });
  fc.assert(
    fc.property(fc.array(row, { maxLength: 60 }), (rows) => {
      const presses = rows.map((each) => press(each.press, each));
      const reduced = reduceLatency(readings({ presses, films: [film("c1"), film("c2", 240)] }), contextOf({ method }));
      for (const connection of reduced.connections) {
        const { counts } = connection.details;
        const parts = counts.valid + counts.excluded + counts.missed + counts.double;
        expect(parts + counts.unreadable + counts.impossible + counts.incomplete).toBe(counts.recorded);
        if (!connection.latency.absent) expect(Number.isFinite(connection.latency.u)).toBe(true);
      }
      pack(reduced);
    }),
    { seed: 6, numRuns: 150 },
  );
});
