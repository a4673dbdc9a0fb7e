import type { Random } from "./random.js";

/** How a report travels from the keyboard to the host. */
export type Link =
  | { readonly kind: "usb"; readonly pollMs: number }
  | {
      readonly kind: "receiver";
      /** Time between two chances to send; a lost packet waits for the next. */
      readonly slotMs: number;
      readonly airMs: number;
      readonly lossShare: number;
      /** Polling of the receiver's own port. */
      readonly pollMs: number;
    }
  | {
      readonly kind: "bluetooth";
      /** Connection interval: a multiple of 1.25 ms. */
      readonly intervalMs: number;
      readonly lossShare: number;
      /** The host's radio, up to where a wired report would arrive. */
      readonly hostMs: number;
    };

/** What a keyboard does between the contact and the host's port. Every wait starts at a random phase. */
export interface KeyboardChain {
  /** The contact bounces for an exponential time of this mean, at most `bounceMostMs`. */
  readonly bounceMs: number;
  readonly bounceMostMs: number;
  /** Eager: reports the first edge. Deferred: waits until the contact has been still for this long. */
  readonly debounce: { readonly kind: "eager" | "deferred"; readonly ms: number };
  /** Period of the matrix scan. */
  readonly scanMs: number;
  readonly firmwareMs: number;
  readonly link: Link;
}

/** One time from contact to the host's port, in ms. */
export function drawChainMs(chain: KeyboardChain, random: Random): number {
  let delay = chain.scanMs * random.uniform() + chain.firmwareMs;
  if (chain.debounce.kind === "deferred") {
    delay += Math.min(random.exponential(chain.bounceMs), chain.bounceMostMs) + chain.debounce.ms;
  }
  const link = chain.link;
  if (link.kind === "usb") return delay + link.pollMs * random.uniform();
  const period = link.kind === "receiver" ? link.slotMs : link.intervalMs;
  delay += period * random.uniform();
  while (random.chance(link.lossShare)) delay += period;
  return link.kind === "receiver" ? delay + link.airMs + link.pollMs * random.uniform() : delay + link.hostMs;
}

/** Expectation of `drawChainMs` over all phases, exactly. */
export function expectedChainMs(chain: KeyboardChain): number {
  let delay = chain.scanMs / 2 + chain.firmwareMs;
  if (chain.debounce.kind === "deferred") {
    const most = chain.bounceMostMs / chain.bounceMs;
    delay += chain.bounceMs * (1 - Math.exp(-most)) + chain.debounce.ms;
  }
  const link = chain.link;
  if (link.kind === "usb") return delay + link.pollMs / 2;
  const period = link.kind === "receiver" ? link.slotMs : link.intervalMs;
  delay += period / 2 + (period * link.lossShare) / (1 - link.lossShare);
  return link.kind === "receiver" ? delay + link.airMs + link.pollMs / 2 : delay + link.hostMs;
}
