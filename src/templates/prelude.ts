import type { Subject } from "./subjects.js";

/** Names that cells use without import, by the module that exports them. */
export type CommonWords = Readonly<Record<string, readonly string[]>>;

/** What stands in scope of one subject: the names of a scope type, whose values the run is given. */
export interface SubjectScope {
  readonly module: string;
  /** Exported type that has one property a name. */
  readonly type: string;
  readonly names: readonly string[];
}

export interface Prelude {
  readonly words: CommonWords;
  readonly subjects: Readonly<Partial<Record<Subject, SubjectScope>>>;
}

/**
 * What is in scope of every template, as data. `see` is not here: each template has its own, typed by its ids. A name
 * that a template declares or imports itself wins over one of these.
 */
export const prelude: Prelude = {
  words: {
    "benchfolio/words": ["atLeast", "atMost", "phrase", "probability", "result"],
    "benchfolio/metrology": [
      "decideAll",
      "decideConformity",
      "derive",
      "difference",
      "isQuantity",
      "seededRandom",
      "sum",
    ],
    "benchfolio/statistics": ["count"],
    "benchfolio/figures": [
      "agreementChart",
      "budgetBars",
      "budgetGroups",
      "chart",
      "controlChart",
      "coverageStrip",
      "curveFamily",
      "effortCurve",
      "empiricalDistribution",
      "forceCurve",
      "intervalChart",
      "keyboardMap",
      "latencyDistribution",
      "link",
      "meritChange",
      "quantileStrip",
      "rankShift",
      "rankedIntervals",
      "regressionChart",
      "smallMultiples",
      "table",
      "varianceBars",
    ],
  },
  subjects: {
    unit: { module: "benchfolio/subject/unit", type: "UnitScope", names: ["unit", "method", "methods", "lab"] },
    archive: { module: "benchfolio/subject/archive", type: "ArchiveScope", names: ["archive", "lab"] },
    change: { module: "benchfolio/subject/change", type: "ChangeScope", names: ["change", "lab"] },
    study: { module: "benchfolio/subject/study", type: "StudyScope", names: ["study", "lab"] },
    rig: { module: "benchfolio/subject/rig", type: "RigScope", names: ["rig", "lab"] },
  },
};
