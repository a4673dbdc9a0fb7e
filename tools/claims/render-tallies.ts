import type { EffectTally, ReportTally } from "./tally.js";

/** Most causes named under a report. */
const causesShown = 4;

/** The tables of a run as text: reports, what they claimed where they claimed anything, effects. */
export function renderTallies(reports: readonly ReportTally[], effects: readonly EffectTally[]): string {
  const lines: string[] = [];
  if (reports.length > 0) {
    lines.push(row("Nothing planted: report", "archives", "any claim", "at most", "says"));
    for (const each of reports) {
      const says = each.withClaim <= each.most ? "met" : "MISSED";
      lines.push(row(each.report, `${each.archives}`, `${each.withClaim}`, `${each.most}`, says));
      for (const { what, archives } of each.causes.slice(0, causesShown)) lines.push(`    ${archives} × ${what}`);
      const left = each.causes.length - causesShown;
      if (left > 0) lines.push(`    and ${left} more`);
    }
  }
  if (effects.length > 0) {
    lines.push("", row("Planted effect", "archives", "found", "share", "says"));
    for (const { effect, archives, found, missedSeeds, meetsBar } of effects) {
      const share = `${((100 * found) / archives).toFixed(1)} %`;
      lines.push(row(effect, `${archives}`, `${found}`, share, meetsBar ? "met" : "MISSED"));
      if (missedSeeds.length > 0)
        lines.push(
          `    not found with seeds ${missedSeeds.slice(0, 12).join(", ")}${missedSeeds.length > 12 ? ", ..." : ""}`,
        );
    }
  }
  return lines.join("\n");
}

function row(name: string, ...numbers: readonly string[]): string {
  return `${name.padEnd(32)}${numbers.map((number) => number.padStart(10)).join("")}`;
}
