import type { KeystrokeReduction } from "../keystroke/model.js";
import type { Packed } from "../metrology/pack.js";
import { pack, unpack } from "../metrology/pack.js";
import type { Archive, KeystrokeMethod, LatencyMethod } from "../records/archive.js";
import { servePool } from "./pool.js";
import { asMethod } from "./as-method.js";
import { reduceSession } from "./reduce-session.js";

/** One session to reduce in a child process. */
export interface ReduceJob {
  readonly unit: string;
  readonly session: string;
  readonly method: string;
  readonly keystroke: Packed | null;
}

servePool<Archive, ReduceJob, Packed>((archive) => (job) => {
  const unit = archive.units.find((each) => each.id === job.unit)!;
  const session = unit.sessions.find((each) => each.id === job.session)!;
  const own = archive.methods.get(session.method) as KeystrokeMethod | LatencyMethod;
  const method = job.method === own.id ? own : asMethod(own, archive.methods.get(job.method) as typeof own);
  const keystroke = job.keystroke === null ? null : (unpack(job.keystroke) as KeystrokeReduction);
  return pack(reduceSession(archive, unit, session, method, keystroke));
});
