import { fork } from "node:child_process";
import type { BrokenAssumption } from "../simulation/simulate-unit.js";
import type { UnitOutcome } from "./measure-unit.js";
import { measureUnit } from "./measure-unit.js";
import type { Answer, Job } from "./worker.js";

export interface RunOptions {
  readonly units: number;
  readonly seed: number;
  readonly broken?: BrokenAssumption | null;
  /** Processes; 0: none but this one. */
  readonly workers: number;
  readonly onProgress?: (done: number) => void;
}

/** Units that a process gets at a time. */
const batch = 10;

/**
 * Simulates and judges the units of a run, in as many processes as asked for; the outcomes stand in the order of the
 * units and do not depend on the number of processes.
 * @throws RangeError for numbers that are not whole, fewer than 1 unit or fewer than 0 processes
 */
export async function simulateRun(options: RunOptions): Promise<readonly UnitOutcome[]> {
  const { units, seed, workers } = options;
  const broken = options.broken ?? null;
  if (!(Number.isInteger(units) && units >= 1)) throw new RangeError(`the number of units is ${units}; at least 1`);
  if (!(Number.isInteger(seed) && seed >= 0)) throw new RangeError(`the seed is ${seed}; a whole number, at least 0`);
  if (!(Number.isInteger(workers) && workers >= 0)) throw new RangeError(`the number of workers is ${workers}`);
  const outcomes = new Array<UnitOutcome>(units);
  const batches: number[][] = [];
  for (let from = 0; from < units; from += batch) {
    batches.push(Array.from({ length: Math.min(batch, units - from) }, (_, i) => from + i));
  }
  let done = 0;
  const take = (indices: readonly number[], found: readonly UnitOutcome[]): void => {
    indices.forEach((index, i) => (outcomes[index] = found[i]!));
    done += indices.length;
    options.onProgress?.(done);
  };
  if (workers === 0) {
    for (const indices of batches) take(indices, indices.map((index) => measureUnit(seed, index, broken))); // prettier-ignore
    return outcomes;
  }
  const next = (): Job | null => {
    const indices = batches.shift();
    return indices === undefined ? null : { seed, indices, broken };
  };
  const count = Math.min(workers, batches.length);
  await Promise.all(Array.from({ length: count }, () => serve(next, ({ indices }, found) => take(indices, found))));
  return outcomes;
}

/** Keeps one process busy until there is no job left; fails with its first error. */
function serve(next: () => Job | null, take: (job: Job, outcomes: readonly UnitOutcome[]) => void): Promise<void> {
  return new Promise((resolve, reject) => {
    const child = fork(new URL("worker.ts", import.meta.url), [], {
      serialization: "advanced",
      execArgv: ["--import", import.meta.resolve("tsx")],
    });
    let job: Job | null = null;
    const advance = (): void => {
      job = next();
      if (job === null) child.disconnect();
      else child.send(job);
    };
    child.on("message", (answer: Answer) => {
      if (answer.ok) {
        take(job!, answer.outcomes);
        advance();
      } else {
        reject(new Error(`a worker failed:\n${answer.error}`));
        child.disconnect();
      }
    });
    child.on("error", reject);
    child.on("exit", (code, signal) => {
      if (job === null) resolve();
      else reject(new Error(`a worker ended early (${signal ?? `exit ${code}`})`));
    });
    advance();
  });
}
