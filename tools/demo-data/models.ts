import type { Raw } from "../simulation/described.js";
import type { KeyShape } from "../simulation/key-shape.js";
import { baseShapes } from "../simulation/key-shape.js";
import type { KeyboardChain } from "../simulation/keyboard-chain.js";

/** A model of keyboard: its words, its shape, its chains, and what its data sheet says. All invented. */
export interface DemoModel {
  readonly maker: string;
  readonly model: string;
  readonly switch: Raw;
  readonly shape: KeyShape;
  readonly chains: Readonly<Record<string, KeyboardChain>>;
  readonly settings: Readonly<Record<string, Raw>>;
  readonly limits: readonly Raw[];
  readonly layout: "ansi" | "iso";
  readonly firmware: string;
}

const sheet = (revision: string): string => `Data sheet, revision ${revision}`;

const forceLimit = (characteristic: string, nominal: number, by: number, revision: string): Raw => ({
  characteristic,
  min_cN: nominal - by,
  nominal_cN: nominal,
  max_cN: nominal + by,
  binds: "each_key",
  force: "limit",
  source: sheet(revision),
  press_speed_mm_per_s: 0.5,
});

const travelLimit = (
  characteristic: string,
  nominal: number,
  by: number,
  revision: string,
  force: "limit" | "typical" = "limit",
): Raw => ({
  characteristic,
  min_mm: Math.round((nominal - by) * 100) / 100,
  nominal_mm: nominal,
  max_mm: Math.round((nominal + by) * 100) / 100,
  binds: "each_key",
  force,
  source: sheet(revision),
});

const contact = { bounceMs: 0.5, bounceMostMs: 3 } as const;

const usb = (pollMs: number, debounceMs: number, scanMs: number): KeyboardChain => ({
  ...contact,
  debounce: debounceMs === 0 ? { kind: "eager", ms: 0 } : { kind: "deferred", ms: debounceMs },
  scanMs,
  firmwareMs: 0.25,
  link: { kind: "usb", pollMs },
});

const receiver = (debounceMs: number, slotMs: number): KeyboardChain => ({
  ...usb(1, debounceMs, 1),
  firmwareMs: 0.35,
  link: { kind: "receiver", slotMs, airMs: 0.6, lossShare: 0.02, pollMs: 1 },
});

const bluetooth = (debounceMs: number, intervalMs: number): KeyboardChain => ({
  ...usb(1, debounceMs, 1),
  firmwareMs: 0.6,
  link: { kind: "bluetooth", intervalMs, lossShare: 0.04, hostMs: 1.8 },
});

const wired = (setHz: number, measuredHz: number, debounce = "not adjustable"): Raw => ({
  polling_set: `${setHz} Hz`,
  polling_measured_Hz: measuredHz,
  debounce,
  adapter: "none",
});
const radio = (adapter: string): Raw => ({ polling_set: "not adjustable", debounce: "not adjustable", adapter });
const ownReceiver = radio("the unit's own receiver, port 2");
const hostRadio = radio("built-in radio of the computer");

export const models = {
  hall31: {
    maker: "Quorrelby",
    model: "Hall 31",
    switch: { kind: "linear", name: "QL-45", travel: "full", actuation_setting: "not adjustable" },
    shape: baseShapes.linearFull,
    chains: { usb: usb(1, 5, 1) },
    settings: { usb: wired(1000, 999.6) },
    limits: [forceLimit("actuation_force", 45, 10, "3"), travelLimit("pre_travel", 2, 0.4, "3")],
    layout: "ansi",
    firmware: "1.4",
  },
  row8: {
    maker: "Brastemoor",
    model: "Row 8",
    switch: { kind: "linear", name: "BM even", travel: "full", actuation_setting: "not adjustable" },
    shape: { ...baseShapes.linearFull, preloadCn: 21, rateCnPerMm: 9.4, makeMm: 2.05, breakMm: 1.82, bottomMm: 4 },
    chains: { usb: usb(1, 5, 1), receiver: receiver(5, 2) },
    settings: { usb: wired(1000, 999.8), receiver: ownReceiver },
    limits: [forceLimit("actuation_force", 45, 5, "A2"), travelLimit("pre_travel", 2, 0.4, "A2", "typical")],
    layout: "iso",
    firmware: "0.31",
  },
  sprint2: {
    maker: "Dravisholt",
    model: "Sprint 2",
    switch: { kind: "linear", name: "DH short", travel: "full", actuation_setting: "not adjustable" },
    shape: baseShapes.linearFast,
    chains: { usb: usb(1, 0, 0.5), receiver: receiver(0, 1), bluetooth: bluetooth(0, 7.5) },
    settings: { usb: wired(1000, 1000.1, "eager, 5 ms blind"), receiver: ownReceiver, bluetooth: hostRadio },
    limits: [forceLimit("actuation_force", 43, 10, "1.1"), travelLimit("pre_travel", 1.2, 0.2, "1.1")],
    layout: "ansi",
    firmware: "2.08",
  },
  slate14: {
    maker: "Hulvendine",
    model: "Slate 14",
    switch: { kind: "linear", name: "HV flat", travel: "low", actuation_setting: "not adjustable" },
    shape: baseShapes.linearLow,
    chains: { usb: usb(1, 5, 1), bluetooth: bluetooth(5, 11.25) },
    settings: { usb: wired(1000, 999.9), bluetooth: hostRadio },
    limits: [forceLimit("actuation_force", 48, 10, "7")],
    layout: "iso",
    firmware: "5.2",
  },
  benchT: {
    maker: "Yttermoule",
    model: "Bench T",
    switch: { kind: "tactile", name: "YM step", travel: "full", actuation_setting: "not adjustable" },
    shape: baseShapes.tactileFull,
    chains: { usb: usb(1, 8, 1) },
    settings: { usb: wired(1000, 999.5) },
    limits: [forceLimit("operating_force", 55, 12, "2"), travelLimit("pre_travel", 2, 0.6, "2")],
    layout: "ansi",
    firmware: "1.0",
  },
  row8T: {
    maker: "Brastemoor",
    model: "Row 8 T",
    switch: { kind: "tactile", name: "BM bump", travel: "full", actuation_setting: "not adjustable" },
    shape: {
      ...baseShapes.tactileFull,
      preloadCn: 29,
      bump: { ...baseShapes.tactileFull.bump, heightCn: 16, atMm: 0.9, dipCn: 7 },
      makeMm: 2.04,
      breakMm: 1.75,
    },
    chains: { usb: usb(1, 5, 1), receiver: receiver(5, 2), bluetooth: bluetooth(5, 7.5) },
    settings: { usb: wired(1000, 999.7), receiver: ownReceiver, bluetooth: hostRadio },
    limits: [forceLimit("operating_force", 55, 15, "A3"), travelLimit("pre_travel", 2, 0.4, "A3")],
    layout: "iso",
    firmware: "0.31",
  },
  form102: {
    maker: "Obbervick",
    model: "Form 102",
    switch: { kind: "tactile", name: "dome sheet", travel: "full", actuation_setting: "not adjustable" },
    shape: baseShapes.domeFull,
    chains: { usb: usb(8, 10, 5) },
    settings: { usb: wired(125, 124.9) },
    limits: [forceLimit("operating_force", 60, 15, "12")],
    layout: "iso",
    firmware: "not recorded",
  },
  form110: {
    maker: "Obbervick",
    model: "Form 110 R",
    switch: { kind: "tactile", name: "dome sheet", travel: "full", actuation_setting: "not adjustable" },
    shape: { ...baseShapes.domeFull, preloadCn: 22 },
    chains: { receiver: receiver(10, 4) },
    settings: { receiver: ownReceiver },
    limits: [forceLimit("operating_force", 62, 15, "4")],
    layout: "iso",
    firmware: "not recorded",
  },
  slate9: {
    maker: "Hulvendine",
    model: "Slate 9 T",
    switch: { kind: "tactile", name: "HV scissor", travel: "low", actuation_setting: "not adjustable" },
    shape: baseShapes.tactileLow,
    chains: { usb: usb(1, 5, 2), bluetooth: bluetooth(5, 15) },
    settings: { usb: wired(1000, 999.9), bluetooth: hostRadio },
    limits: [forceLimit("operating_force", 60, 10, "6"), travelLimit("pre_travel", 1.2, 0.3, "6", "typical")],
    layout: "ansi",
    firmware: "5.0",
  },
  fold3: {
    maker: "Vandrequay",
    model: "Fold 3",
    switch: { kind: "tactile", name: "VQ leaf", travel: "low", actuation_setting: "not adjustable" },
    shape: { ...baseShapes.tactileLow, preloadCn: 21, bottomMm: 1.95, makeMm: 1.26, breakMm: 1.08 },
    chains: { bluetooth: bluetooth(5, 15) },
    settings: { bluetooth: hostRadio },
    limits: [forceLimit("operating_force", 62, 12, "1")],
    layout: "ansi",
    firmware: "3.3",
  },
  tallyC: {
    maker: "Gristolven",
    model: "Tally C",
    switch: { kind: "clicky", name: "GR ratchet", travel: "full", actuation_setting: "not adjustable" },
    shape: baseShapes.clickyFull,
    chains: { usb: usb(1, 10, 2) },
    settings: { usb: wired(1000, 999.4) },
    limits: [forceLimit("operating_force", 60, 12, "5"), travelLimit("pre_travel", 1.9, 0.4, "5")],
    layout: "ansi",
    firmware: "1.1",
  },
  tallyC2: {
    maker: "Gristolven",
    model: "Tally C2",
    switch: { kind: "clicky", name: "GR ratchet", travel: "full", actuation_setting: "not adjustable" },
    shape: {
      ...baseShapes.clickyFull,
      preloadCn: 33,
      click: { ...baseShapes.clickyFull.click, dropCn: 16, atMm: 1.7 },
      makeMm: 1.88,
    },
    chains: { usb: usb(1, 7, 1), receiver: receiver(7, 1) },
    settings: { usb: wired(1000, 999.6), receiver: ownReceiver },
    limits: [forceLimit("operating_force", 64, 12, "1"), travelLimit("pre_travel", 1.9, 0.4, "1")],
    layout: "ansi",
    firmware: "1.3",
  },
  fold5: {
    maker: "Vandrequay",
    model: "Fold 5 C",
    switch: { kind: "clicky", name: "VQ snap", travel: "low", actuation_setting: "not adjustable" },
    shape: baseShapes.clickyLow,
    chains: { usb: usb(1, 5, 1), bluetooth: bluetooth(5, 11.25) },
    settings: { usb: wired(1000, 999.8), bluetooth: hostRadio },
    limits: [forceLimit("operating_force", 57, 12, "1")],
    layout: "ansi",
    firmware: "3.4",
  },
  benchL: {
    maker: "Yttermoule",
    model: "Bench L",
    switch: { kind: "linear", name: "YM plain", travel: "full", actuation_setting: "not adjustable" },
    shape: {
      ...baseShapes.tactileFull,
      preloadCn: 26,
      bump: { ...baseShapes.tactileFull.bump, heightCn: 13, dipCn: 5 },
    },
    chains: { usb: usb(1, 5, 1) },
    settings: { usb: wired(1000, 999.5) },
    limits: [forceLimit("actuation_force", 45, 12, "1"), travelLimit("pre_travel", 2, 0.6, "1")],
    layout: "ansi",
    firmware: "1.0",
  },
} as const satisfies Readonly<Record<string, DemoModel>>;

export type ModelName = keyof typeof models;
