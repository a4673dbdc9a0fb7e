import { fork } from "node:child_process";
import type { ChildProcess } from "node:child_process";

/** What a child of the pool answers to one job. */
export type JobAnswer<Outcome> =
  { readonly ok: true; readonly outcome: Outcome } | { readonly ok: false; readonly error: string };

export interface Pool<Job, Outcome> {
  /** Runs one job in the next free child; answers come in any order, so results must be keyed by the job. */
  run(job: Job): Promise<Outcome>;
  /** Ends the children; jobs still under way are rejected. */
  close(): void;
}

export interface PoolOptions {
  /** Number of children, at least 1. */
  readonly size: number;
  /** Sent to every child before its first job. */
  readonly init: unknown;
}

interface Waiting<Job, Outcome> {
  readonly job: Job;
  readonly resolve: (outcome: Outcome) => void;
  readonly reject: (error: Error) => void;
}

/**
 * Opens a pool of forked processes that serve jobs of one kind (`servePool` is the child's side). Children start when
 * first needed and run with TZ=UTC and LC_ALL=C, so that no result can depend on the machine's settings.
 *
 * @param entry compiled file that calls `servePool`
 */
export function openPool<Job, Outcome>(entry: URL, options: PoolOptions): Pool<Job, Outcome> {
  if (!(options.size >= 1)) throw new RangeError(`a pool needs at least one process, got ${options.size}`);
  const idle: ChildProcess[] = [];
  const children = new Map<ChildProcess, Waiting<Job, Outcome> | null>();
  const queue: Waiting<Job, Outcome>[] = [];
  let closed = false;

  const next = (): void => {
    while (queue.length > 0 && (idle.length > 0 || children.size < options.size)) {
      const child = idle.pop() ?? start();
      const waiting = queue.shift()!;
      children.set(child, waiting);
      child.send({ job: waiting.job });
    }
  };
  const start = (): ChildProcess => {
    const child = fork(entry, [], {
      serialization: "advanced",
      env: { TZ: "UTC", LC_ALL: "C" },
      stdio: ["ignore", "ignore", "pipe", "ipc"],
    });
    let stderr = "";
    child.stderr?.on("data", (chunk: Buffer) => (stderr = (stderr + chunk.toString()).slice(-4000)));
    children.set(child, null);
    child.send({ init: options.init });
    child.on("message", (answer: JobAnswer<Outcome>) => {
      const waiting = children.get(child);
      children.set(child, null);
      idle.push(child);
      if (answer.ok) waiting?.resolve(answer.outcome);
      else waiting?.reject(new Error(answer.error));
      next();
    });
    child.on("exit", (code, signal) => {
      const waiting = children.get(child);
      children.delete(child);
      const at = idle.indexOf(child);
      if (at >= 0) idle.splice(at, 1);
      waiting?.reject(
        new Error(
          closed ? "the run was stopped" : `a worker process ended early (${signal ?? `exit ${code}`})\n${stderr}`,
        ),
      );
      if (!closed) next();
    });
    return child;
  };

  return {
    run: (job) =>
      new Promise<Outcome>((resolve, reject) => {
        if (closed) reject(new Error("the pool is closed"));
        queue.push({ job, resolve, reject });
        next();
      }),
    close: () => {
      closed = true;
      for (const child of children.keys()) child.kill();
    },
  };
}

/** The child's side of a pool: `begin` gets the init message once and returns what answers each job. */
export function servePool<Init, Job, Outcome>(begin: (init: Init) => (job: Job) => Outcome): void {
  let answer: ((job: Job) => Outcome) | null = null;
  process.on("message", (message: { readonly init?: Init; readonly job?: Job }) => {
    if (message.init !== undefined) {
      answer = begin(message.init);
      return;
    }
    let reply: JobAnswer<Outcome>;
    try {
      if (answer === null) throw new Error("a job came before the init message");
      reply = { ok: true, outcome: answer(message.job as Job) };
    } catch (error) {
      reply = { ok: false, error: error instanceof Error ? (error.stack ?? error.message) : String(error) };
    }
    process.send?.(reply);
  });
  process.on("disconnect", () => process.exit(0));
}
