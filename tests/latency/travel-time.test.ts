import { expect, test } from "vitest";
import { difference, sum } from "../../src/metrology/derive.js";
import { Absent, Quantity, isQuantity } from "../../src/metrology/quantity.js";
import { observeFilm } from "../../src/latency/film-presses.js";
import { reduceLatency } from "../../src/latency/reduce-latency.js";
import { readerOffset } from "../../src/latency/reader-offset.js";
import { travelTime } from "../../src/latency/travel-time.js";
import {
  calibrationTerms,
  contextOf,
  film,
  preTravelOf,
  press,
  pressesOf,
  readings,
  rows,
  stated,
  term,
  withTerms,
} from "./records.js";

const exact = (valueMm: number): Quantity<"mm"> => new Quantity(valueMm, "mm", [], rows("f.csv", 1));
const key = (preTravel: Quantity<"mm">) => ({ KeyF: { preTravel, of: "pressed_key" as const } });
const observed = (marks: readonly (number | null)[] = Array<null>(14).fill(null)) =>
  observeFilm(
    marks.map((markFrame, i) => press(i + 1, { markFrame })),
    [film()],
  ).get("usb")!;
const travelOf = (context: Parameters<typeof travelTime>[3], presses = observed()) => {
  const found = travelTime("KeyF", presses, readerOffset(presses, context), context);
  if (!isQuantity(found.travel)) throw new Error(found.travel.reason);
  return { ...found, travel: found.travel };
};
const part = (quantity: Quantity, label: string): number =>
  quantity.components.find((component) => component.source.label === label)?.contribution ?? 0;

test("2.0 mm at 100 mm/s is 20 ms, and 5 % of the speed is 1 ms of it (derived; recomputed here)", () => {
  const terms = { ...calibrationTerms, plungerSpeed: term(100, 5, "mm/s") };
  const { travel, speed } = travelOf(withTerms(terms, { preTravel: key(exact(2)) }));
  expect(travel.value).toBe(20);
  expect(Math.abs(part(travel, "Plunger speed over the pre-travel"))).toBeCloseTo(1, 12);
  expect(speed.absent ? NaN : speed.value).toBe(100);
});

test("the acceleration term is a share of the travel time", () => {
  const terms = { ...calibrationTerms, plungerSpeed: term(100, 0, "mm/s"), plungerAcceleration: term(0.03, 0.02, "1") };
  const { travel } = travelOf(withTerms(terms, { preTravel: key(exact(2)) }));
  expect(travel.value).toBeCloseTo(20.6, 12);
  expect(part(travel, "Plunger acceleration over the pre-travel")).toBeCloseTo(0.4, 12);
});

test("the pre-travel's components come in with it, and the tester's own cancels between two units", () => {
  const one = travelOf(contextOf({ preTravel: key(preTravelOf("KeyF", 2)) })).travel;
  expect(part(one, "Displacement scale of the tester")).toBeCloseTo((2 * 0.001 * 1000) / 120, 12);
  expect(part(one, "Repeats of KeyF")).toBeCloseTo((0.02 * 1000) / 120, 12);
  const other = travelOf(contextOf({ unit: "u08", preTravel: key(preTravelOf("KeyG", 2)) })).travel;
  expect(part(difference(one, other), "Displacement scale of the tester")).toBe(0);
  expect(part(difference(one, other), "Plunger speed over the pre-travel")).toBe(0);
  expect(part(sum(one, other), "Plunger speed over the pre-travel")).toBeCloseTo((2 * (-16.666667 * 2)) / 120, 5);
});

test("the zero offset is 0 ± one frame's travel, rectangular, unless it is stated", () => {
  const label = "Zero offset between the tester's touch and contact";
  expect(part(travelOf(contextOf()).travel, label)).toBeCloseTo(-1 / Math.sqrt(3), 12);
  const zeroOffset = { value: stated(0.05, "mm"), halfWidth: stated(0.06, "mm") };
  const { travel } = travelOf(contextOf({ preTravel: key(exact(2)), zeroOffset }));
  expect(travel.value).toBeCloseTo(1950 / 120, 12);
  expect(part(travel, label)).toBeCloseTo((-1000 / 120) * (0.06 / Math.sqrt(3)), 12);
});

test("tester speed against plunger speed is ±1 % of the travel for each factor of ten, rectangular", () => {
  const label = "Pre-travel at plunger speed against tester speed (assumed)";
  const context = contextOf({ preTravel: key(exact(2)), testerSpeed: stated(1.2, "mm/s") });
  expect(part(travelOf(context).travel, label)).toBeCloseTo((2 * 0.01 * 2000) / 120 / Math.sqrt(3), 12);
  expect(part(travelOf({ ...context, testerSpeed: stated(120, "mm/s") }).travel, label)).toBe(0);
  expect(part(travelOf({ ...context, speedEffectPerDecade: 0 }).travel, label)).toBe(0);
});

test("a tester speed that is not recorded counts three factors of ten, and says so", () => {
  const found = travelOf(contextOf({ preTravel: key(exact(2)), testerSpeed: undefined }));
  expect(found.warnings).toContain("the tester's speed is not recorded: 3 factors of ten are assumed");
  expect(part(found.travel, "Pre-travel at plunger speed against tester speed (assumed)")).toBeCloseTo(
    (3 * 0.01 * 2000) / 120 / Math.sqrt(3),
    12,
  );
});

test("where the mark is read, the speed under load comes from it, not from the calibration", () => {
  const found = travelOf(contextOf({ preTravel: key(exact(2)) }), observed([16, 17, 16, 17, 16, 17]));
  expect(found.travel.value).toBeCloseTo(16.5, 12);
  expect(found.speed.absent ? NaN : found.speed.value).toBeCloseTo(2000 / 16.5, 12);
  expect(found.basis).toBe("pre-travel of the pressed key over the plunger's speed by its mark on film (6 presses)");
  expect(part(found.travel, "Plunger speed over the pre-travel")).toBe(0);
  const s = Math.sqrt(0.25 * (6 / 5));
  expect(part(found.travel, "Scatter of the plunger's mark on film")).toBeCloseTo(s / Math.sqrt(6), 12);
});

test("marks that read alike still leave the frame's Tf/sqrt(6)", () => {
  const { travel } = travelOf(contextOf({ preTravel: key(exact(2)) }), observed(Array<number>(14).fill(17)));
  expect(part(travel, "Scatter of the plunger's mark on film")).toBeCloseTo(1 / Math.sqrt(6) / Math.sqrt(14), 12);
});

test("a mark at a stated position gives the speed over that distance", () => {
  const context = contextOf({ preTravel: key(exact(2)), markPosition: stated(1.5, "mm") });
  const found = travelOf(context, observed(Array<number>(5).fill(15)));
  expect(found.speed.absent ? NaN : found.speed.value).toBe(100);
  expect(found.travel.value).toBe(20);
});

test("the reader's offset at contact is the same in film time and travel time by the mark, so it cancels in the latency", () => {
  const presses = pressesOf([45, 47, 50, 52, 49, 48, 46, 51, 47, 55, 49, 48, 50, 46]).map((each, i) => ({
    ...each,
    markFrame: each.contactFrame! + 16 + (i % 2),
  }));
  const [usb] = reduceLatency(readings({ presses }), contextOf()).connections;
  if (usb!.latency.absent || usb!.film.absent) throw new Error("there must be a latency");
  expect(part(usb!.film, "Reader's own offset at contact")).toBeCloseTo(-0.5 / Math.sqrt(3), 12);
  expect(part(usb!.latency, "Reader's own offset at contact")).toBeCloseTo(0, 12);
  expect(part(usb!.latency, "Reader's own offset at the plunger's mark")).toBeCloseTo(-0.5 / Math.sqrt(3), 12);
});

test("one or two marks are not used, and said so", () => {
  const found = travelOf(contextOf(), observed([16, 17, null, null]));
  expect(found.basis).toBe("pre-travel of the pressed key over the rig's speed check");
  expect(found.warnings).toContain("the plunger's mark is read in 2 presses only: not used");
});

test("a mark that contradicts the calibration, and a nominal speed that contradicts either, are said so", () => {
  const found = travelOf(contextOf(), observed(Array<number>(14).fill(20)));
  expect(found.warnings).toEqual([
    "the session states a plunger speed of 120 mm/s; the film's mark gives 100.0 mm/s",
    "the film's mark gives a plunger speed of 100.0 mm/s, the rig's calibration 120.0 mm/s",
  ]);
  expect(travelOf(contextOf({ nominalPlungerSpeed: stated(100, "mm/s") })).warnings).toEqual([
    "the session states a plunger speed of 100 mm/s; the rig's calibration gives 120.0 mm/s",
  ]);
});

test("where the pre-travel comes from is said", () => {
  const input = { preTravel: exact(2), of: "data_sheet" as const };
  expect(travelOf(contextOf({ preTravel: { KeyF: input } })).basis).toContain("pre-travel by the data sheet over");
});

test.each([
  ["no key", contextOf({ preTravel: {} }), "no pre-travel is known for KeyF"],
  [
    "absent",
    contextOf({ preTravel: { KeyF: { preTravel: new Absent("mm", "no contact channel"), of: "pressed_key" } } }),
    "no contact channel",
  ],
  ["zero", contextOf({ preTravel: key(exact(0)) }), "the pre-travel of KeyF is 0 mm; it must be above 0"],
  ["no speed", withTerms({}), "neither marks on film nor the calibration of rig camera-1 give the plunger's speed"],
])("travel is absent with its reason: %s", (_, context, reason) => {
  const presses = observed();
  const { travel } = travelTime("KeyF", presses, readerOffset(presses, context), context);
  expect(travel.absent && travel.reason).toBe(reason);
});

test("a speed effect, a zero offset or a mark position that makes no sense is refused", () => {
  expect(() => travelOf(contextOf({ speedEffectPerDecade: NaN }))).toThrow("speed effect is NaN");
  const zeroOffset = { value: stated(0, "mm"), halfWidth: stated(-1, "mm") };
  expect(() => travelOf(contextOf({ zeroOffset }))).toThrow("half-width of the zero offset is -1 mm");
  expect(() => travelOf(contextOf({ markPosition: stated(0, "mm") }), observed([16, 16, 16]))).toThrow(
    "position is 0 mm",
  );
});
