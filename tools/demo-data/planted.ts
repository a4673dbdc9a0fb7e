import { effectSizes } from "../simulation/effect-sizes.js";
import { drift } from "./rigs.js";

/** Effects that the demo archive holds on purpose, with their true sizes. */
export const planted = {
  outlierKey: { unit: "u10", key: "KeyP", forceCn: effectSizes.outlierKeyCn },
  springWorn: { unit: "u09", from: "s1", to: "s2", forceCn: effectSizes.movedForceCn },
  contactMoved: { unit: "u13", from: "s1", to: "s2", preTravelMm: effectSizes.movedPreTravelMm },
  position: { row: "B", forceCn: effectSizes.positionCn },
  firstCycle: { forceCn: effectSizes.firstCycleCn },
  drift,
  slip: { unit: "u08", session: "s2", key: "KeyT", cycle: 2 },
  missed: { unit: "u06", session: "s3", connection: "receiver", press: 9 },
  double: { unit: "u15", session: "s3", connection: "usb", press: 3 },
  excluded: { unit: "u01", session: "s3", connection: "usb", press: 5 },
  operator: {
    study: "crossed-1",
    operator: "operator-3",
    forceCn: effectSizes.operatorCn,
    preTravelMm: effectSizes.operatorMm,
  },
  reader: { study: "readers-1", reader: "reader-b", responseFrames: effectSizes.readerFrames },
} as const;

/** The same in words and numbers, for `tests/truth/planted.json`. */
export const plantedList = [
  {
    id: "outlier-key",
    what: "One key is harder than its neighbours over the whole stroke",
    where: { unit: planted.outlierKey.unit, key: planted.outlierKey.key, sessions: ["s1", "s2"] },
    size: { value: planted.outlierKey.forceCn, symbol: "cN" },
  },
  {
    id: "moved-force",
    what: "Springs worn between the two keystroke sessions: every key is softer",
    where: { unit: planted.springWorn.unit, from: "s1", to: "s2" },
    size: { value: planted.springWorn.forceCn, symbol: "cN" },
  },
  {
    id: "moved-pre-travel",
    what: "The contacts close later after a membrane was replaced between the two keystroke sessions",
    where: { unit: planted.contactMoved.unit, from: "s1", to: "s2" },
    size: { value: planted.contactMoved.preTravelMm, symbol: "mm" },
  },
  {
    id: "position-effect",
    what: "Keys of row B are harder than those of rows C and D, in every unit",
    where: { row: planted.position.row, keys: ["KeyN", "KeyZ"] },
    size: { value: planted.position.forceCn, symbol: "cN" },
  },
  {
    id: "first-cycle",
    what: "The first recorded cycle is harder; the excess halves with every cycle",
    where: { sessions: "all keystroke sessions" },
    size: { value: planted.firstCycle.forceCn, symbol: "cN" },
  },
  {
    id: "rig-drift",
    what: "The force span of one tester rises between two checks and stays until it is calibrated anew",
    where: { rig: drift.rig, from: drift.from, until: drift.until, sessions: ["u04/s1", "u18/s1"] },
    size: { value: drift.spanRatio, symbol: "1" },
  },
  {
    id: "expired-calibration",
    what: "A session after the tester's calibration was due",
    where: { rig: "tester-2", due: "2026-03-31", session: "u15/s2" },
  },
  { id: "excluded-cycle", what: "The probe slipped off the keycap", where: planted.slip },
  { id: "missed-press", what: "A press without response", where: planted.missed },
  { id: "double-press", what: "A press that arrived twice", where: planted.double },
  { id: "excluded-press", what: "A press taken out by hand", where: planted.excluded },
  {
    id: "description-mismatch",
    what: "Described as linear, but the curve has a bump",
    where: { unit: "u18" },
  },
  { id: "late-contact", what: "The contact is known from reports, 9 ms to 27 ms late", where: { unit: "u11" } },
  { id: "firmware-changed", what: "Firmware 1.2, then 1.3", where: { unit: "u16", from: "s1", to: "s2" } },
  { id: "not-retested", what: "Held, with keystroke@1 alone", where: { units: ["u07", "u14"] } },
  { id: "returned", what: "Returned before the change of method", where: { unit: "u12" } },
  { id: "withdrawn", what: "Withdrawn before the change of method", where: { unit: "u17" } },
  { id: "no-latency", what: "Keystroke session only", where: { unit: "u18" } },
  {
    id: "other-key-filmed",
    what: "A key was filmed that the force tester did not measure",
    where: { unit: "u16", session: "s3", key: "KeyJ" },
  },
  {
    id: "operator-offset",
    what: "One operator reads more force and less pre-travel",
    where: { study: planted.operator.study, operator: planted.operator.operator },
    size: { value: planted.operator.forceCn, symbol: "cN" },
    also: { value: planted.operator.preTravelMm, symbol: "mm" },
  },
  {
    id: "reader-offset",
    what: "One reader sees the response late",
    where: { study: planted.reader.study, reader: planted.reader.reader },
    size: { value: planted.reader.responseFrames, symbol: "frame" },
  },
] as const;
