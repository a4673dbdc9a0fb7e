import type { Chart } from "../figures/chart.js";
import type { TemplateProblem, TemplateRun } from "../templates/outcome.js";

/** Everything a dossier's page is made from. The page is a pure function of it: no clock, no file, no locale. */
export interface DossierInput {
  readonly run: TemplateRun;
  readonly titleBlock: TitleBlock;
  /** Statements of the laboratory, in the order they are to stand: items tested, reproduction, limits of use, safety. */
  readonly statements: readonly Statement[];
  /** Additions to, deviations from and exclusions of the method; an empty list prints "None recorded". */
  readonly deviations: readonly Deviation[];
  /** Raw and describing files that are listed in any case: what the page is about. The page lists all by their paths. */
  readonly files: readonly RawFile[];
  /** The archive's other files, which are listed where a number of the page rests on them; absent: none. */
  readonly otherFiles?: readonly RawFile[];
  /** What the page must state as a test report, and where; absent or empty: the page makes no such claim. */
  readonly reportItems?: readonly ReportItem[];
  readonly tool: { readonly name: string; readonly version: string };
  /**
   * Draws a chart, as `drawChart` of the figures does: ids inside the SVG are made unique from `figureId`, `title` is the
   * figure's question. What it throws is shown in the figure's place.
   */
  readonly draw: (chart: Chart, figureId: string, options: { readonly title: string }) => DrawnChart;
  /** Rules for the figures' classes and variables; joins the page's one style sheet. */
  readonly figureStyles: string;
  /** Told of problems met while the page is rendered: a chart that cannot be drawn, a link that may not stand. */
  readonly onProblem?: (problem: TemplateProblem) => void;
}

/** What stands in the title block (ISO/IEC 17025:2017, 7.8.2.1). Unknown texts are given as "not recorded". */
export interface TitleBlock {
  /** Number of an issued dossier; null: DRAFT. */
  readonly number: string | null;
  readonly revision: string;
  /** The item: its identity first, then what describes it (condition, sample number, date received ...). */
  readonly item: { readonly name: string; readonly particulars: readonly Particular[] };
  readonly methods: readonly { readonly id: string; readonly title: string }[];
  readonly laboratory: { readonly name: string; readonly address: string; readonly contact: string };
  readonly customer: string;
  /** ISO 8601 dates, start and end; null where no work was done for this dossier. */
  readonly work: { readonly start: string; readonly end: string } | null;
  /** ISO 8601 date of issue; null: "not issued". */
  readonly issued: string | null;
  /** Role that authorised it; null: "not approved". */
  readonly approvedBy: string | null;
  /** An amendment names the document that it changes and why (7.8.8). */
  readonly amends?: { readonly number: string; readonly reason: string };
}

/** One item that a test report must state (ISO/IEC 17025:2017, 7.8.2). */
export interface ReportItem {
  /** "7.8.2.1 a" */
  readonly clause: string;
  readonly item: string;
  /** What the page says of it; null: not recorded. */
  readonly text: string | null;
  /** The part of the page where it stands; null where it stands nowhere. */
  readonly place: "title_block" | "schedule" | "deviations" | "statements" | "every_sheet" | null;
}

export interface Particular {
  readonly label: string;
  readonly text: string;
}

export interface Statement {
  readonly heading: string;
  readonly text: string;
}

/** One thing that was done otherwise than the method says. */
export interface Deviation {
  /** Session, key or rig that it concerns. */
  readonly where: string;
  readonly text: string;
  /** File and 1-based line that records it. */
  readonly file?: string;
  readonly line?: number;
}

export interface RawFile {
  /** Relative to the archive's root, with forward slashes. */
  readonly path: string;
  readonly bytes: number;
  /** Lower-case hexadecimal. */
  readonly sha256: string;
}

/** A chart as drawn. */
export interface DrawnChart {
  /** One `<svg role="img">` with a title and a description, free of scripts, styles and addresses. */
  readonly svg: string;
  /** What was drawn, RFC 4180. */
  readonly csv: string;
  readonly title: string;
  readonly description: string;
}
