import type { StudyPlan, StudyRow } from "./archive-plan.js";
import type { KeyboardChain } from "./keyboard-chain.js";
import { expectedChainMs } from "./keyboard-chain.js";
import { randomFor } from "./random.js";

/** A candidate method as it really behaves: what it adds to the chain's time, its gain, and the scatter of one result. */
export interface Candidate {
  readonly method: string;
  readonly rig: string;
  readonly operator: string;
  readonly addsMs: number;
  readonly gain: number;
  readonly sdMs: number;
}

/** The delay box behaves like a wired keyboard of its own whose delay can be set. */
const boxMs = 0.62;

/**
 * Candidate latency methods side by side: on a box of known delays, and on real connections. The box's delays are rows
 * of the method `reference`; the set-up, such as `delay-10` or `u06-receiver`, stands under `mount`.
 */
export function candidatesStudy(
  seed: number,
  candidates: readonly Candidate[],
  knownMs: readonly number[],
  connections: readonly { readonly unit: string; readonly connection: string; readonly chain: KeyboardChain }[],
  repeats: number,
): StudyPlan {
  const latency = { characteristic: "latency", symbol: "ms", decimals: 3 } as const;
  const random = randomFor(seed, "candidates");
  const results = (c: Candidate, trueMs: number, facts: Partial<StudyRow>): readonly StudyRow[] =>
    Array.from({ length: repeats }, (_, i) => ({
      ...facts,
      ...latency,
      operator: c.operator,
      rig: c.rig,
      method: c.method,
      repeat: String(i + 1),
      value: c.gain * trueMs + c.addsMs + c.sdMs * random.normal(),
    }));
  const known = knownMs.flatMap((delayMs): StudyRow[] => [
    { ...latency, method: "reference", mount: `delay-${delayMs}`, repeat: "1", value: delayMs },
    ...candidates.flatMap((c) => results(c, delayMs + boxMs, { mount: `delay-${delayMs}` })),
  ]);
  const real = connections.flatMap(({ unit, connection, chain }) =>
    candidates.flatMap((c) =>
      results(c, expectedChainMs(chain), { unit, key: "KeyF", connection, mount: `${unit}-${connection}` }),
    ),
  );
  return {
    raw: {
      id: "candidates-1",
      title: "Candidate methods for latency",
      kind: "candidate_methods",
      question:
        "Which method should the laboratory use for latency? Each result is the mean of one session; mount names the " +
        "set-up. A box of known delays stands in for a keyboard where no unit is named, and the delay that was set is " +
        "the row of the method called reference.",
      factors: ["method", "mount", "repeat"],
    },
    readings: [...known, ...real],
  };
}
