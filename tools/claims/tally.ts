import type { PlantedEffect } from "../simulation/planted-effects.js";
import { mostFalse, wantedPower } from "./bars.js";
import type { Judged } from "./judge-archive.js";

/** False claims of one report over archives with nothing planted. */
export interface ReportTally {
  readonly report: string;
  readonly archives: number;
  /** Archives in which it makes any claim, and the most allowed. */
  readonly withClaim: number;
  readonly most: number;
  /** What was claimed, by the question of the row, and in how many archives; most frequent first. */
  readonly causes: readonly { readonly what: string; readonly archives: number }[];
}

export interface EffectTally {
  readonly effect: PlantedEffect;
  readonly archives: number;
  readonly found: number;
  /** Seeds in which the report did not claim it. */
  readonly missedSeeds: readonly number[];
  readonly meetsBar: boolean;
}

/** Counts over archives with nothing planted, a row a report; archives with an effect are left aside. */
export function tallyReports(judged: readonly Judged[]): readonly ReportTally[] {
  const plain = judged.filter(({ effect }) => effect === null);
  return [...new Set(plain.flatMap(({ reports }) => reports))].map((report) => {
    const own = plain.filter(({ reports }) => reports.includes(report));
    const claims = own.map((each) => each.claims.filter((claim) => claim.report === report));
    const causes = new Map<string, number>();
    for (const list of claims) {
      const questions = new Set(
        list.map(({ table, row }) => `${table === "claims" ? "" : `${table}: `}${questionOf(row)}`),
      );
      for (const what of questions) causes.set(what, (causes.get(what) ?? 0) + 1);
    }
    return {
      report,
      archives: own.length,
      withClaim: claims.filter((list) => list.length > 0).length,
      most: mostFalse(own.length),
      causes: [...causes].map(([what, archives]) => ({ what, archives })).sort((a, b) => b.archives - a.archives),
    };
  });
}

/** How often each planted effect was found, in the order in which they first occur. */
export function tallyEffects(judged: readonly Judged[]): readonly EffectTally[] {
  const effects = [...new Set(judged.flatMap(({ effect }) => (effect === null ? [] : [effect])))];
  return effects.map((effect) => {
    const own = judged.filter((each) => each.effect === effect);
    const found = own.filter((each) => each.found === true).length;
    const missedSeeds = own.filter((each) => each.found !== true).map(({ seed }) => seed);
    return { effect, archives: own.length, found, missedSeeds, meetsBar: found >= wantedPower * own.length };
  });
}

/** The question of a row and what it is about; without its numbers, and without the key, row or day that chance picked out. */
function questionOf(row: string): string {
  const [question, about] = row.split(" | ");
  const words = question!.replace(/\b\d+ (?=\w)/, "the ");
  const isPicked = about === undefined || /^([<>]? ?[\d.]+$|\d{4}-|Key|rows$|hands$)/.test(about);
  return isPicked ? words : `${words} (${about})`;
}
