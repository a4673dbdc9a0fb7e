import { expect, test } from "vitest";
import { readArchive } from "../../../src/records/index.js";
import type { Session } from "../../../src/records/archive.js";
import { betweenSessions, tellsOfBetween } from "../../../src/templates/subject/between-sessions.js";

const archive = readArchive(new URL("../../../data", import.meta.url).pathname);
const session = (unit: string, id: string): Session =>
  archive.units.find((each) => each.id === unit)!.sessions.find((each) => each.id === id)!;
const tells = (note: string): boolean => tellsOfBetween(note, "2025-10-08", "2026-04-14");

test("a note tells of the time between two days where a day, month or year that it names reaches into it", () => {
  expect(tells("Membrane replaced in January 2026.")).toBe(true);
  expect(tells("Repaired on 2025-10-08.")).toBe(true);
  expect(tells("Repaired in 2026-04")).toBe(true);
  expect(tells("New springs in 2026")).toBe(true);
  expect(tells("Repaired on 2025-10-07.")).toBe(false);
  expect(tells("Opened in May 2026, closed again on 2026-06-30")).toBe(false);
});

test("a stretch of time counts from its first to its last day, and a note without a time tells of none", () => {
  expect(tells("In use from March 2025 to August 2026.")).toBe(true);
  expect(tells("Kept back as the check standard of both testers; certificate 12026-04.")).toBe(false);
  expect(tells("")).toBe(false);
});

test("what one record leaves out is no difference; the driver and the display leave one open for a latency alone", () => {
  const old = { ...session("u13", "s1"), firmware: "5.0", driver: "not recorded" };
  const now = { ...session("u13", "s2"), firmware: "not recorded", driver: "2.1", contactSource: "report" as const };
  expect(betweenSessions(old, now, "keystroke")).toEqual({
    differences: ["contact source was electrical and is report"],
    unsettled: ["firmware is not recorded in one of the two sessions"],
  });
  expect(betweenSessions(old, now, "latency").unsettled).toEqual([
    "firmware is not recorded in one of the two sessions",
    "driver is not recorded in one of the two sessions",
    "display refresh is not recorded in either of the two sessions",
  ]);
});

test("settings of connections that both sessions used are compared by name", () => {
  const [old, now] = [session("u13", "s3"), session("u13", "s3")];
  const usb = { ...now.connections["usb"]!, pollingSet: "500 Hz" };
  expect(betweenSessions(old, { ...now, connections: { usb } }, "latency").differences).toEqual([
    "polling of usb was 1000 Hz and is 500 Hz",
  ]);
});
