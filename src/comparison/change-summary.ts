import { expand, isQuantity, printQuantity } from "../metrology/index.js";
import type { Measured, Quantity, Verdict } from "../metrology/index.js";
import { placesFor, roundToPlaces } from "../metrology/print.js";
import { counted, listed, sentences } from "./in-words.js";
import type { PurposeFacts } from "./picks-text.js";
import { picksText } from "./picks-text.js";

/** A unit in words: "u09 (Yttermoule Bench T, sample 2)". */
export type UnitName = string;

/** What is known of a change of method, ready to be told. Everything that the words may claim is in here. */
export interface ChangeFacts {
  readonly from: string;
  readonly to: string;
  /** What the methods do differently, as a whole sentence. */
  readonly difference: string;
  /** What a published value belongs to: "unit", or "connection" of a unit. */
  readonly noun: string;
  readonly units: {
    readonly retested: readonly UnitName[];
    /** Measured by the old method alone and still held. */
    readonly pending: readonly UnitName[];
    /** Measured by the old method alone and not held any more. */
    readonly outOfReach: readonly UnitName[];
    /** Measured by the new method alone. */
    readonly fresh: readonly UnitName[];
    /** Retested, but something beside the method differs. */
    readonly apart: readonly { readonly unit: UnitName; readonly why: string }[];
    /** Retested, but their own record tells of something between the sessions: not used for the effect of the method. */
    readonly told: readonly { readonly unit: UnitName; readonly note: string }[];
    /** Used, but the records leave out something that may differ. */
    readonly unsettled: readonly { readonly unit: UnitName; readonly what: string }[];
  };
  /** Mean change of the published values, over the units that the effect of the method is taken from. */
  readonly values: readonly {
    readonly name: string;
    readonly bias: Measured;
    /** One further unit like these: value ± U is the prediction interval. */
    readonly further: Measured;
    readonly verdict: Verdict;
    readonly smallest: Quantity | null;
    readonly pairs: number;
  }[];
  /** Same keys, old against new session: whether a unit changed by itself. */
  readonly movements: readonly {
    readonly unit: UnitName;
    readonly name: string;
    readonly change: Measured;
    readonly outcome: Verdict["outcome"];
    readonly note: string;
    /** The note in the unit's own record; empty where it has none. */
    readonly record: string;
  }[];
  readonly ranks: {
    /** What the units are ranked by. */
    readonly by: string;
    readonly ranked: number;
    readonly turned: readonly (readonly [falls: UnitName, rises: UnitName])[];
    /** Pairs that turned at 5 % each taken alone, and not after the adjustment for all pairs. */
    readonly turnedAlone: readonly (readonly [falls: UnitName, rises: UnitName])[];
  };
  readonly purposes: readonly PurposeFacts[];
  /** What was not measured before: "latency (latency@1)". */
  readonly added: readonly string[];
}

/** The summary for a lab's readers, a paragraph a subject; a subject that there is nothing to say of is left out. */
export type ChangeSummary = readonly { readonly subject: string; readonly text: string }[];

/**
 * A change of method in plain words, by fixed rules: a change of the mean or of a unit is stated only where its verdict is
 * "moved", its absence only where it is "did not move", and everything else is said to be open; a pick or a grade is said to
 * change only where it is safe. No number is said that is not in the facts.
 */
export function summariseChange(facts: ChangeFacts): ChangeSummary {
  return [
    { subject: "What changed", text: `${facts.to} takes the place of ${facts.from}. ${facts.difference}` },
    { subject: "Which units", text: coverageText(facts) },
    { subject: "The numbers", text: valuesText(facts) },
    { subject: "The units themselves", text: movementText(facts) },
    { subject: "The order", text: ranksText(facts) },
    { subject: "Picks and grades", text: picksText(facts.purposes) },
    { subject: "New", text: addedText(facts) },
  ].filter(({ text }) => text !== "");
}

function coverageText({ from, to, units }: ChangeFacts): string {
  const { retested, pending, outOfReach, fresh, apart, told, unsettled } = units;
  const old = retested.length + pending.length + outOfReach.length;
  const head =
    old === 0
      ? `No unit has a result by ${from}, so nothing can be compared.`
      : `Of ${counted(old, "unit")} with a result by ${from}, ${retested.length === 0 ? "none has" : retested.length === 1 ? "one has" : `${retested.length} have`} been measured again by ${to}.`;
  return sentences(
    head,
    pending.length === 0 ? "" : `Still to be measured again: ${listed(pending)}.`,
    outOfReach.length === 0
      ? ""
      : `Cannot be measured again, because the laboratory does not hold them: ${listed(outOfReach)}.`,
    fresh.length === 0 ? "" : `Measured by ${to} alone: ${listed(fresh)}.`,
    apart.length === 0
      ? ""
      : `Not used for the effect of the method, because something else differs too: ${listed(apart.map(({ unit, why }) => `${unit}, whose ${why}`))}.`,
    told.length === 0
      ? ""
      : `Not used for ${apart.length === 0 ? "the effect of the method" : "it either"}, because the unit's own record tells of the time between the sessions: ${listed(told.map(({ unit, note }) => `${unit}, “${withoutStop(note)}”`))}.`,
    ...unsettled.map(({ unit, what }) => `Of ${unit} the ${what}, so that a change of it cannot be ruled out.`),
  );
}

function valuesText({ values, noun }: ChangeFacts): string {
  return values
    .map(({ name, bias, further, verdict, smallest, pairs }) => {
      if (!isQuantity(bias)) return `How the published ${name} changes cannot be said: ${bias.reason}.`;
      const by = `${printQuantity(bias).text} on average over ${counted(pairs, noun)}`;
      const range =
        isQuantity(further) && further.u > 0
          ? ` One further ${noun} like these is expected at 95\u00a0% to change by ${endsOf(further)}.`
          : "";
      if (verdict.outcome === "yes") {
        const size = smallest === null ? "" : sizeAgainst(bias, smallest);
        return `The published ${name} changes by ${by}${size}.${range}`;
      }
      if (verdict.outcome === "no" && smallest !== null) {
        return `The published ${name} does not change on average by the ${printQuantity(smallest).text} that matter: it changes by ${by}.${range}`;
      }
      return `Whether the published ${name} changes on average is open: it changes by ${by}.${range}`;
    })
    .join(" ");
}

function sizeAgainst(bias: Quantity, smallest: Quantity): string {
  return Math.abs(bias.value) - expand(bias).U >= smallest.value
    ? `, more than the ${printQuantity(smallest).text} that matter`
    : "; whether that is as much as matters is open";
}

function movementText({ movements }: ChangeFacts): string {
  const judged = movements.filter(({ change }) => isQuantity(change));
  if (judged.length === 0) return "";
  const moved = judged.filter(({ outcome }) => outcome === "yes");
  const open = judged.filter(({ outcome }) => outcome === "undecided");
  const same = judged.length - moved.length - open.length;
  const byUnit = [...new Set(moved.map(({ unit }) => unit))].map((unit) => {
    const parts = moved
      .filter((each) => each.unit === unit)
      .map(
        ({ name, change, note }) =>
          `${name} by ${printQuantity(change as Quantity).text}${note === "" ? "" : ` (${note})`}`,
      );
    const record = moved.find((each) => each.unit === unit)!.record;
    const cause = record === "" ? "its record names no cause" : `its own record says “${withoutStop(record)}”`;
    return `${unit}: ${listed(parts)}; ${cause}`;
  });
  return sentences(
    byUnit.length === 0
      ? "No unit is shown to have changed between its two sessions."
      : `Changed between the two sessions, by the same keys and the same reduction. ${byUnit.join(". ")}.`,
    same === 0 ? "" : `${same} of ${judged.length} single values did not move by as much as matters.`,
    open.length === 0 ? "" : `For ${open.length} of ${judged.length} it cannot be told.`,
  );
}

function ranksText({ ranks, noun }: ChangeFacts): string {
  if (ranks.ranked < 2) return "";
  const turned = ranks.turned.map(([falls, rises]) => `${rises} now lies ahead of ${falls}`);
  const alone = ranks.turnedAlone.map(([falls, rises]) => `${rises} ahead of ${falls}`);
  const single = alone.length === 0 ? "" : ` Taken alone at 5\u00a0%, which is no claim: ${listed(alone)}.`;
  return turned.length === 0
    ? `By ${ranks.by}, no two of ${ranks.ranked} ${noun}s are shown to have changed places, all pairs together.${single}`
    : `By ${ranks.by}, ${listed(turned)}; of no other pair is it shown, all pairs together.${single}`;
}

function withoutStop(note: string): string {
  return note.replace(/\.$/, "");
}

function addedText({ added }: ChangeFacts): string {
  return added.length === 0 ? "" : `New with this change, so without a value before: ${listed(added)}.`;
}

/** Ends of value ± U, rounded as U is: "−5.0 cN to 5.8 cN". */
function endsOf(quantity: Quantity): string {
  const { U } = expand(quantity);
  const places = placesFor(U, 2);
  const unit = quantity.symbol === "1" ? "" : `\u00a0${quantity.symbol}`;
  return `${roundToPlaces(quantity.value - U, places)}${unit} to ${roundToPlaces(quantity.value + U, places)}${unit}`;
}
