import type { ChildProcess } from "node:child_process";
import { spawn } from "node:child_process";
import type { Readable } from "node:stream";
import { permissionFlags } from "./permission-flags.js";
import type { ChildMessage, RequestMessage, Stop } from "./protocol.js";
import { announceDescriptor } from "./protocol.js";
import type { StepLimits } from "./step-watch.js";
import { StepWatch } from "./step-watch.js";

export interface SealedChildOptions {
  /** Files and folders that the child may read beside this package and its dependencies: the archive, the entry file. */
  readonly readable?: readonly string[];
  /** Longest time of one step, of the processor where the system tells it; 10 s by default. */
  readonly stepLimitMs?: number;
  /** Longest time between two steps, by the clock; 60 s by default. */
  readonly idleLimitMs?: number;
  /** Longest time in which a child must load, by the clock; 60 s by default. */
  readonly startLimitMs?: number;
  /** Most memory of the JavaScript heap; 512 MB by default. */
  readonly heapMb?: number;
  /** Most memory of the whole process, seen on Linux alone; by default twice the heap and 512 MB. */
  readonly residentMb?: number;
}

/** A process that serves requests and can neither reach anything nor outlast its limits. */
export interface SealedChild {
  /**
   * Sends a request and waits for its reply. Requests are served one after the other. Where a step oversteps a limit,
   * the child is ended and the request runs again in a fresh one that is told to leave that step out.
   * @throws SealedFault where the handler threw, or the child ended outside a step: a fault of the tool
   */
  ask(request: unknown): Promise<unknown>;
  /** Ends the child. */
  close(): void;
}

/** A fault of the code in a sealed child, as opposed to one of a template. */
export class SealedFault extends Error {}

/** Most steps of one request that may be stopped before the request is given up. */
const mostStops = 50;

/**
 * Opens a sealed child on an entry file that calls `serveSealed`. It starts with the first request. It runs under Node's
 * permission model with TZ=UTC, LC_ALL=C and nothing else in its environment.
 *
 * @param entryFile absolute path of compiled code; it must be readable to the child
 */
export function openSealedChild(entryFile: string, options: SealedChildOptions = {}): SealedChild {
  const { stepLimitMs = 10_000, idleLimitMs = 60_000, startLimitMs = 60_000, heapMb = 512 } = options;
  const { residentMb = 2 * heapMb + 512 } = options;
  const limits = { stepMs: stepLimitMs, idleMs: idleLimitMs, startMs: startLimitMs, residentMb };
  const flags = [...permissionFlags([entryFile, ...(options.readable ?? [])]), `--max-old-space-size=${heapMb}`];
  let current: Attendant | null = null;
  let last: Promise<unknown> = Promise.resolve();
  let nextId = 0;
  let closed = false;

  const serve = async (body: unknown): Promise<unknown> => {
    const stopped = new Map<string, Stop>();
    for (;;) {
      if (closed) throw new SealedFault("the sealed child was closed");
      current ??= new Attendant(entryFile, flags, limits, heapMb);
      const attendant = current;
      const fresh = attendant.served === 0;
      const end = await attendant.attempt({ kind: "request", id: nextId++, body, stopped: [...stopped] });
      if (end.kind === "reply") return end.body;
      if (end.kind === "fault") throw new SealedFault(end.message);
      current = null;
      if (end.step === null) throw new SealedFault(end.message);
      // What earlier requests left in memory is not this step's fault: only a fresh child's death is held against it.
      if (end.stop.reason === "memory" && !fresh) continue;
      if (stopped.has(end.step) || stopped.size >= mostStops) {
        throw new SealedFault(`the step ${end.step} was stopped again and again`);
      }
      stopped.set(end.step, end.stop);
    }
  };
  return {
    ask: (request) => {
      const answer = last.then(() => serve(request));
      last = answer.catch(() => undefined);
      return answer;
    },
    close: () => {
      closed = true;
      current?.kill();
      current = null;
    },
  };
}

type AttemptEnd =
  | { readonly kind: "reply"; readonly body: unknown }
  | { readonly kind: "fault"; readonly message: string }
  | { readonly kind: "died"; readonly step: string; readonly stop: Stop }
  | { readonly kind: "died"; readonly step: null; readonly message: string };

/** One process, and the request that it is at. */
class Attendant {
  served = 0;
  readonly #child: ChildProcess;
  readonly #watch: StepWatch;
  readonly #heapMb: number;
  #stderr = "";
  #overstep: Stop | null = null;
  #ready = false;
  #waiting: RequestMessage | null = null;
  #finish: ((end: AttemptEnd) => void) | null = null;
  readonly #killOnExit = (): void => void this.#child.kill("SIGKILL");

  constructor(entryFile: string, flags: readonly string[], limits: StepLimits, heapMb: number) {
    this.#heapMb = heapMb;
    const system = process.env.SystemRoot === undefined ? {} : { SystemRoot: process.env.SystemRoot };
    const child = spawn(process.execPath, [...flags, "--no-warnings", entryFile], {
      stdio: ["ignore", "ignore", "pipe", "ipc", "pipe"],
      env: { ...system, TZ: "UTC", LC_ALL: "C" },
      serialization: "advanced",
    });
    this.#child = child;
    this.#watch = new StepWatch(child.pid ?? -1, limits, (stop) => {
      this.#overstep = stop;
      child.kill("SIGKILL");
    });
    child.stderr?.on("data", (chunk: Buffer) => (this.#stderr = (this.#stderr + chunk.toString()).slice(-4000)));
    const announcements = child.stdio[announceDescriptor] as Readable;
    announcements.on("data", (chunk: Buffer) => this.#watch.hear(chunk.toString()));
    child.on("message", (message) => this.#hear(message as ChildMessage));
    child.on("error", (error) => this.#stderr ||= error.message);
    // `close` comes after every pipe has been read to its end, so the last announcement has been heard.
    child.on("close", (code, signal) => {
      process.removeListener("exit", this.#killOnExit);
      process.setMaxListeners(process.getMaxListeners() - 1);
      this.#died(code, signal);
    });
    // One listener a child: the usual limit, meant to find leaks, must not warn of a large pool.
    process.setMaxListeners(process.getMaxListeners() + 1);
    process.once("exit", this.#killOnExit);
  }

  attempt(request: RequestMessage): Promise<AttemptEnd> {
    return new Promise((resolve) => {
      this.#finish = resolve;
      this.#waiting = request;
      this.#watch.begin(this.#ready);
      if (this.#ready) this.#send();
      else if (this.#child.exitCode !== null || this.#child.signalCode !== null) this.#died(this.#child.exitCode, null);
    });
  }

  kill(): void {
    this.#child.kill("SIGKILL");
  }

  #send(): void {
    if (this.#waiting !== null) this.#child.send(this.#waiting, () => undefined);
    this.#waiting = null;
  }

  #hear(message: ChildMessage): void {
    if (message.kind === "ready") {
      this.#ready = true;
      this.#watch.ready();
      this.#send();
      return;
    }
    this.served++;
    this.#end(message.kind === "reply" ? { kind: "reply", body: message.body } : { kind: "fault", message: message.message });
  }

  #died(code: number | null, signal: string | null): void {
    const { step } = this.#watch;
    const outOfMemory = /heap out of memory|heap limit|Allocation failed|out of memory/i.test(this.#stderr);
    const stop: Stop | null = this.#overstep ?? (outOfMemory ? { reason: "memory", limitMb: this.#heapMb } : null);
    if (step !== null && stop !== null) {
      this.#end({ kind: "died", step, stop });
      return;
    }
    const how = stop?.reason === "time" ? `was silent for ${stop.limitMs / 1000} s` : `ended early (${signal ?? `exit ${code}`})`;
    this.#end({ kind: "died", step: null, message: `the sealed child ${how}\n${this.#stderr}`.trim() });
  }

  #end(end: AttemptEnd): void {
    this.#watch.end();
    this.#finish?.(end);
    this.#finish = null;
  }
}
