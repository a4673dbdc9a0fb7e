import { Absent } from "../metrology/quantity.js";
import type { Measured } from "../metrology/quantity.js";
import type { PressReduction } from "./model.js";
import type { ObservedPress } from "./observed-press.js";
import { isValid } from "./observed-press.js";
import type { Observation } from "./observed-time.js";
import { observedTime } from "./observed-time.js";
import { subtractTerms } from "./subtract-terms.js";

export interface Standing {
  /** The kept presses; valid ones outside it are `not_kept`. */
  readonly kept: ReadonlySet<ObservedPress>;
  /** What the page says of a valid press that was not kept. */
  readonly notKeptReason: string;
}

/**
 * Every press of a connection with its standing and the reason for it. Excluded presses keep their times, so that the
 * page can show them; presses without a valid interval keep their place, and their time where one can be formed.
 */
export function reducePresses(
  presses: readonly ObservedPress[],
  standing: Standing,
  terms: { readonly system: Measured<"ms"> | null; readonly travelOf: (key: string) => Measured<"ms"> | null },
  observation: Observation,
): readonly PressReduction[] {
  return presses.map((press): PressReduction => {
    const { fault, timeMs, evidence } = press;
    const observed =
      timeMs === null
        ? new Absent("ms", fault?.reason ?? "this press was not read", evidence)
        : observedTime({ ...press, timeMs }, observation);
    const latency =
      fault !== null
        ? new Absent("ms", fault.reason, evidence)
        : subtractTerms(
            observed,
            { system: terms.system, travel: terms.travelOf(press.key) },
            `latency of press ${press.press}: observed time minus the method's terms`,
          );
    const [word, why] = judge(press, standing);
    const reason = [why, ...press.notes].filter((text) => text !== "").join("; ");
    return {
      press: press.press,
      key: press.key,
      observed,
      latency,
      outcome: press.outcome,
      standing: word,
      reason,
      evidence,
    };
  });
}

function judge(press: ObservedPress, standing: Standing): readonly [PressReduction["standing"], string] {
  if (press.excluded !== "") return ["excluded", press.excluded];
  if (!isValid(press)) return ["invalid", press.fault?.reason ?? "this press was not read"];
  return standing.kept.has(press) ? ["kept", ""] : ["not_kept", standing.notKeptReason];
}
