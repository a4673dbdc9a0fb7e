import { expand, isQuantity, printQuantity } from "../metrology/index.js";
import type { Measured, Quantity, Verdict } from "../metrology/index.js";

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
  };
  /** Mean change of the published values, over the units that do not stand apart. */
  readonly values: readonly {
    readonly name: string;
    readonly bias: Measured;
    readonly limits: readonly [Measured, Measured];
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
  }[];
  readonly ranks: {
    /** What the units are ranked by; null where they cannot be ranked. */
    readonly by: string;
    readonly ranked: number;
    readonly turned: readonly (readonly [falls: UnitName, rises: UnitName])[];
  };
  readonly purposes: readonly {
    readonly name: string;
    readonly outcome: "unchanged" | "changed" | "no safe choice";
    readonly kept: readonly UnitName[];
    readonly entering: readonly UnitName[];
    readonly leaving: readonly UnitName[];
    readonly grades: readonly { readonly unit: UnitName; readonly from: string; readonly to: string }[];
    readonly openGrades: number;
    readonly scored: number;
    /** How many units the purpose recommends. */
    readonly places: number;
  }[];
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
    { subject: "Recommendations", text: purposesText(facts) },
    { subject: "New", text: addedText(facts) },
  ].filter(({ text }) => text !== "");
}

/** "a", "a and b", "a, b and c". */
export function listed(words: readonly string[]): string {
  const last = words.at(-1) ?? "";
  return words.length < 2 ? last : `${words.slice(0, -1).join(", ")} and ${last}`;
}

/** "one unit", "3 units", "no unit". */
export function counted(count: number, noun: string): string {
  return count === 0 ? `no ${noun}` : count === 1 ? `one ${noun}` : `${count} ${noun}s`;
}

function coverageText({ from, to, units }: ChangeFacts): string {
  const { retested, pending, outOfReach, fresh, apart } = units;
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
  );
}

function valuesText({ values, noun }: ChangeFacts): string {
  return values
    .map(({ name, bias, limits, verdict, smallest, pairs }) => {
      if (!isQuantity(bias)) return `How the published ${name} changes cannot be said: ${bias.reason}.`;
      const by = `${printQuantity(bias).text} on average over ${counted(pairs, noun)}`;
      const [lower, upper] = limits;
      const range =
        isQuantity(lower) && isQuantity(upper)
          ? ` For a single ${noun} the change lies between about ${valueOf(lower)} and ${valueOf(upper)}.`
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
    return `${unit}: ${listed(parts)}`;
  });
  return sentences(
    byUnit.length === 0
      ? "No unit is shown to have changed between its two sessions."
      : `Changed between the two sessions, whatever the method: ${byUnit.join("; ")}.`,
    same === 0 ? "" : `${same} of ${judged.length} single values did not move by as much as matters.`,
    open.length === 0 ? "" : `For ${open.length} of ${judged.length} it cannot be told.`,
  );
}

function ranksText({ ranks, noun }: ChangeFacts): string {
  if (ranks.ranked < 2) return "";
  const turned = ranks.turned.map(([falls, rises]) => `${rises} now lies ahead of ${falls}`);
  return turned.length === 0
    ? `By ${ranks.by}, no two of ${ranks.ranked} ${noun}s are shown to have changed places; other shifts of rank are within the uncertainty.`
    : `By ${ranks.by}, ${listed(turned)}; other shifts of rank are within the uncertainty.`;
}

/** Purposes of which the same is to be said are told together. */
function purposesText({ purposes }: ChangeFacts): string {
  const told = purposes.filter(({ scored }) => scored > 0);
  const grouped = (say: (purpose: ChangeFacts["purposes"][number]) => string): readonly string[] => {
    const groups = new Map<string, string[]>();
    for (const purpose of told) groups.set(say(purpose), [...(groups.get(say(purpose)) ?? []), purpose.name]);
    return [...groups].map(([text, names]) => `For ${listed(names)}, ${text}.`);
  };
  return sentences(...grouped(picksText), ...grouped(gradesText));
}

function picksText({ outcome, kept, entering, leaving, scored, places }: ChangeFacts["purposes"][number]): string {
  if (scored <= places) {
    const units = scored === 1 ? "the one unit that has a merit is" : `all ${scored} units that have a merit are`;
    return `${units} among the ${places} recommended`;
  }
  if (outcome === "unchanged") return `the recommended units stay: ${listed(kept)}`;
  if (outcome === "changed")
    return `${listed(entering)} ${entering.length === 1 ? "takes" : "take"} the place of ${listed(leaving)}`;
  const stays = kept.length === 0 ? "" : `; ${listed(kept)} ${kept.length === 1 ? "stays" : "stay"} recommended`;
  return `there is no safe choice between ${listed([...leaving, ...entering])}${stays}`;
}

function gradesText({ grades, openGrades }: ChangeFacts["purposes"][number]): string {
  const changed = grades.map(({ unit, from, to }) => `${unit} goes from the grade “${from}” to “${to}”`);
  const open = openGrades === 0 ? "" : `for ${counted(openGrades, "unit")} the grade may or may not change`;
  return listed(
    [changed.length === 0 ? "no grade surely changes" : listed(changed), open].filter((part) => part !== ""),
  );
}

function addedText({ added }: ChangeFacts): string {
  return added.length === 0 ? "" : `New with this change, so without a value before: ${listed(added)}.`;
}

/** Value and unit of measure without the uncertainty, rounded to it. */
function valueOf(quantity: Quantity): string {
  const { value, symbol } = printQuantity(quantity);
  return symbol === "" ? value : `${value}\u00a0${symbol}`;
}

function sentences(...parts: readonly string[]): string {
  return parts.filter((part) => part !== "").join(" ");
}
