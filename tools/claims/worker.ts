import { servePool } from "../../src/build/pool.js";
import type { PlantedEffect } from "../simulation/planted-effects.js";
import { claimingReports } from "./claims-of.js";
import type { Judged } from "./judge-archive.js";
import { judgeArchive } from "./judge-archive.js";
import { openReports } from "./open-reports.js";

/** One archive to generate and judge. */
export interface ClaimsJob {
  readonly seed: number;
  readonly effect: PlantedEffect | null;
}

const reports = await openReports(claimingReports);

servePool<"start", ClaimsJob, Judged>(
  () =>
    ({ seed, effect }) =>
      judgeArchive(reports, seed, effect),
);
