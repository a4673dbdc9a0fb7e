import type { KeyboardChain } from "./keyboard-chain.js";

/** Connections to choose from, each with a plausible chain. */
export const chains = {
  usb: {
    bounceMs: 0.5,
    bounceMostMs: 3,
    debounce: { kind: "deferred", ms: 5 },
    scanMs: 1,
    firmwareMs: 0.25,
    link: { kind: "usb", pollMs: 1 },
  },
  receiver: {
    bounceMs: 0.5,
    bounceMostMs: 3,
    debounce: { kind: "deferred", ms: 5 },
    scanMs: 1,
    firmwareMs: 0.35,
    link: { kind: "receiver", slotMs: 2, airMs: 0.6, lossShare: 0.02, pollMs: 1 },
  },
  bluetooth: {
    bounceMs: 0.5,
    bounceMostMs: 3,
    debounce: { kind: "deferred", ms: 5 },
    scanMs: 1,
    firmwareMs: 0.6,
    link: { kind: "bluetooth", intervalMs: 7.5, lossShare: 0.04, hostMs: 1.8 },
  },
} as const satisfies Readonly<Record<string, KeyboardChain>>;

export type ChainName = keyof typeof chains;
