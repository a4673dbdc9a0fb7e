import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { readArchive } from "../../src/records/index.js";
import type { PlantedEffect } from "../simulation/planted-effects.js";
import { writeArchive } from "../simulation/render-archive.js";
import type { SimulateArchiveOptions } from "../simulation/small-archive.js";
import { simulateArchive } from "../simulation/small-archive.js";
import type { Claim } from "./claims-of.js";
import { claimingReports, claimsOf } from "./claims-of.js";
import { soughtEffects } from "./effects.js";
import type { Reports } from "./open-reports.js";
import { reduceInProcess } from "./reduce-in-process.js";

/** What the reports of one archive claim. */
export interface Judged {
  readonly seed: number;
  readonly effect: PlantedEffect | null;
  /** Every report that ran, also those that claim nothing. */
  readonly reports: readonly string[];
  readonly claims: readonly Claim[];
  /** Whether the report that should claims the planted effect; null where nothing is planted. */
  readonly found: boolean | null;
}

export interface JudgeOptions {
  /** Reports that run where nothing is planted; default: all that state claims. */
  readonly templates?: readonly string[];
  /** Smaller archives than the usual ones. */
  readonly archive?: Pick<SimulateArchiveOptions, "retested" | "stepMm">;
}

/**
 * Generates an archive, reads it back from files, reduces it and takes down what its reports claim. With an effect, only
 * the report that must find it runs, on the sessions that it rests on.
 * @throws Error where the archive has a problem or a cell fails
 */
export function judgeArchive(
  reports: Reports,
  seed: number,
  effect: PlantedEffect | null,
  options: JudgeOptions = {},
): Judged {
  const { templates = claimingReports, archive: size = {} } = options;
  const folder = mkdtempSync(join(tmpdir(), "claims-"));
  try {
    writeArchive(simulateArchive(seed, { ...size, planted: effect === null ? [] : [effect] }).files, folder);
    const archive = readArchive(folder);
    const [problem] = archive.problems;
    if (problem !== undefined)
      throw new Error(`archive of seed ${seed}: ${problem.file}:${problem.line}: ${problem.code}`);
    const sought = effect === null ? null : soughtEffects[effect];
    const reductions = reduceInProcess(archive, sought === null ? null : sought.units);
    const stated =
      sought === null
        ? templates.flatMap((name) => reports.state(name, archive, reductions, null))
        : reports.state(sought.template, archive, reductions, sought.subject === null ? null : [sought.subject]);
    const claims = stated.flatMap(claimsOf);
    return {
      seed,
      effect,
      reports: stated.map(({ report }) => report),
      claims,
      found: sought === null ? null : claims.some(sought.isFound),
    };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
