import type { TemplateProblem } from "../templates/outcome.js";
import type { DossierInput, DrawnChart, RawFile } from "./input.js";
import type { Measured } from "../metrology/quantity.js";
import type { Chart } from "../figures/chart.js";
import type { Ground, GroundBook, GroundEntry } from "./ground-book.js";
import type { Markup } from "./markup.js";
import type { PagePlan, Place } from "./plan-page.js";
import type { TraceBook } from "./trace-book.js";

/** A row of the schedule of results. */
export interface ScheduleRow {
  readonly section: string;
  readonly label: string;
  /** Where the result is printed. */
  readonly anchor: string;
  readonly value: Markup;
  readonly verdict: Markup;
}

/** A problem where it stands on the page. */
export interface PlacedProblem {
  readonly problem: TemplateProblem;
  readonly anchor: string;
  /** "Figure 2.1", "a value in the text". */
  readonly what: string;
  readonly status: "failed" | "not_run";
}

/** A chart whose values are listed in the annex. */
export interface PlottedChart {
  readonly place: Place;
  readonly chart: Chart;
  readonly drawn: DrawnChart;
  /** "V1" */
  readonly mark: string;
}

/** A file in the annex of raw files. */
export interface ListedFile extends RawFile {
  /** "R1" */
  readonly anchor: string;
}

/** What the rendering of one page gathers on its way; made anew for every page. */
export interface Page {
  readonly input: DossierInput;
  readonly plan: PagePlan;
  readonly book: GroundBook;
  /** Anchor of the place where a number is printed first, for the way back from its ground. */
  readonly firstPrinted: Map<GroundEntry, string>;
  readonly results: ScheduleRow[];
  readonly problems: PlacedProblem[];
  readonly plotted: PlottedChart[];
  /** Why the last figure or table had nothing to show, where nothing stood after it; null otherwise. */
  lastGap: string | null;
  /** Decimal places of numbers without uncertainty that stand in a column with others. */
  readonly places: Map<Measured, number>;
  /** Whether a table offers tools, so that the page carries their script. */
  usesTableTools: boolean;
  /** Chains of evidence as they were set, with the ground that has each first. */
  readonly chains: Map<string, Ground>;
  /** Rows that several grounds rest on; known when all numbers of the page are. */
  traces: TraceBook | null;
  /** By path: the files that the page lists, in the order they stand, with their anchors; known when all numbers are. */
  files: ReadonlyMap<string, ListedFile>;
}
