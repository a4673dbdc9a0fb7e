import { proportionIntervalKernel } from "../../src/statistics/index.js";
import type { Table } from "../coverage/render-table.js";
import { renderText } from "../coverage/render-table.js";
import { soughtEffects } from "./effects.js";
import type { EffectTally, ReportTally } from "./tally.js";

/** Most causes, and most seeds, named in a row. */
const mostNamed = 4;

/** What reports claim where nothing is planted: one row a report, with what it claimed most often. */
export function reportsTable(reports: readonly ReportTally[]): Table {
  return [
    [
      "report",
      "archives",
      "any claim",
      "%",
      "95 % interval",
      "at most",
      "bar",
      "what it claimed, and in how many archives",
    ],
    ...reports.map(({ report, archives, withClaim, most, causes }) => [
      report,
      String(archives),
      String(withClaim),
      ...share(withClaim, archives),
      String(most),
      withClaim <= most ? "met" : "missed",
      named(causes.map(({ what, archives: count }) => `${what}: ${count}`)) || "nothing",
    ]),
  ];
}

/** How often each planted effect is claimed by the report that should: one row an effect. */
export function effectsTable(effects: readonly EffectTally[]): Table {
  return [
    ["effect", "what is planted", "by the", "archives", "found", "%", "95 % interval", "bar", "seeds without"],
    ...effects.map(({ effect, archives, found, missedSeeds, meetsBar }) => [
      effect.replaceAll("_", " "),
      soughtEffects[effect].what,
      [soughtEffects[effect].template, soughtEffects[effect].subject ?? ""].join(" ").trim(),
      String(archives),
      String(found),
      ...share(found, archives),
      meetsBar ? "met" : "missed",
      named(missedSeeds.map(String)) || "none",
    ]),
  ];
}

/** Both tables as text; one without rows is left out. */
export function renderTallies(reports: readonly ReportTally[], effects: readonly EffectTally[]): string {
  return [
    ...(reports.length === 0 ? [] : [renderText(reportsTable(reports))]),
    ...(effects.length === 0 ? [] : [renderText(effectsTable(effects))]),
  ].join("\n\n");
}

/** Percent, and its exact interval. */
function share(count: number, archives: number): readonly [string, string] {
  const { proportion, lower, upper } = proportionIntervalKernel(count, archives, { method: "exact" });
  const [percent, from, to] = [proportion, lower, upper].map((each) => (100 * each).toFixed(1));
  return [percent!, `${from!} to ${to!}`];
}

function named(texts: readonly string[]): string {
  const left = texts.length - mostNamed;
  return [...texts.slice(0, mostNamed), ...(left > 0 ? [`and ${left} more`] : [])].join("; ");
}
