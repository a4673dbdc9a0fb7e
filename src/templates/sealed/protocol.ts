/** What parent and sealed child say to each other. */

/** Why a step was ended by the parent, told to the child that runs the request again. */
export type Stop =
  | { readonly reason: "time"; readonly limitMs: number }
  | { readonly reason: "memory"; readonly limitMb: number };

export interface RequestMessage {
  readonly kind: "request";
  readonly id: number;
  readonly body: unknown;
  /** Steps that ended an earlier child, by their names. */
  readonly stopped: readonly (readonly [step: string, stop: Stop])[];
}

export type ChildMessage =
  | { readonly kind: "ready" }
  | { readonly kind: "reply"; readonly id: number; readonly body: unknown }
  | { readonly kind: "fault"; readonly id: number; readonly message: string };

/** File descriptor on which the child announces its steps; written at once, so that an endless step has been announced. */
export const announceDescriptor = 4;

/** Lines on that descriptor: `+step` begins a step, `-` ends it. */
export function parseAnnouncement(line: string): { readonly begins: string } | { readonly ends: true } | null {
  if (line.startsWith("+")) return { begins: line.slice(1) };
  return line === "-" ? { ends: true } : null;
}
