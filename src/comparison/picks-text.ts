import { counted, listed, sentences } from "./in-words.js";

/** What a change did to the picks and grades for one purpose, units in words. */
export interface PurposeFacts {
  readonly name: string;
  readonly outcome: "unchanged" | "changed" | "no safe choice";
  /** Best by value after the change; more than the places where equal merits compete for the last one. */
  readonly best: readonly string[];
  /** Probability that exactly these are the best ones, as it is printed. */
  readonly probability: string;
  /** Units of which it cannot be told whether they are among the best: a probability between 5 % and 95 %. */
  readonly open: readonly string[];
  readonly entering: readonly string[];
  readonly leaving: readonly string[];
  readonly grades: readonly { readonly unit: string; readonly from: string; readonly to: string }[];
  readonly openGrades: number;
  readonly scored: number;
  /** How many units the purpose picks. */
  readonly places: number;
}

/**
 * Picks and grades in words, purposes of which the same is to be said together. The best are named as what they are, the
 * best by value, with the probability that they are the best in truth; a pick takes another's place only where its outcome
 * says so.
 */
export function picksText(purposes: readonly PurposeFacts[]): string {
  const told = purposes.filter(({ scored }) => scored > 0);
  const grouped = (say: (purpose: PurposeFacts) => string): readonly string[] => {
    const groups = new Map<string, string[]>();
    for (const purpose of told) groups.set(say(purpose), [...(groups.get(say(purpose)) ?? []), purpose.name]);
    return [...groups].map(([text, names]) => `For ${listed(names)}, ${text}.`);
  };
  return sentences(...grouped(bestText), ...grouped(gradesText));
}

function bestText(purpose: PurposeFacts): string {
  const { outcome, best, probability, open, entering, leaving, scored, places } = purpose;
  if (scored <= places) {
    const units = scored === 1 ? "the one unit that has a merit is" : `all ${scored} units that have a merit are`;
    return `${units} among the ${places} picks`;
  }
  const those = best.length === 1 ? "it is the best one" : `these are the ${best.length} best`;
  const equal =
    best.length > places ? `, for ${counted(places, "place").replace("one", "1")}, since some are equal` : "";
  const head = `best by value ${best.length === 1 ? "is" : "are"} ${listed(best)}${equal}; the probability that ${those} is ${probability}`;
  const swap =
    outcome === "unchanged"
      ? "by value the picks stay"
      : outcome === "changed"
        ? `${listed(entering)} ${entering.length === 1 ? "takes" : "take"} the place of ${listed(leaving)}`
        : `there is no safe choice between ${listed([...leaving, ...entering])}`;
  const unsure = open.length < 2 ? "" : `; which of ${listed(open)} belong to the best cannot be told`;
  return `${head}; ${swap}${unsure}`;
}

function gradesText({ grades, openGrades }: PurposeFacts): string {
  const changed = grades.map(({ unit, from, to }) => `${unit} goes from the grade “${from}” to “${to}”`);
  const open = openGrades === 0 ? "" : `for ${counted(openGrades, "unit")} the grade may or may not change`;
  return listed(
    [changed.length === 0 ? "no grade surely changes" : listed(changed), open].filter((part) => part !== ""),
  );
}
