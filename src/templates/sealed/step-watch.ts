import { processorMs, residentMb } from "./process-usage.js";
import type { Stop } from "./protocol.js";
import { parseAnnouncement } from "./protocol.js";

export interface StepLimits {
  /** Longest time of one step: of the processor where the system tells it, else of the clock. */
  readonly stepMs: number;
  /** Longest time between steps, by the clock. */
  readonly idleMs: number;
  /** Longest time until the child is ready, by the clock. */
  readonly startMs: number;
  /** Most memory of the whole process; looked at only where the system tells it. */
  readonly residentMb: number;
}

/** How often the limits are looked at. */
const lookEveryMs = 25;

/** On a machine so busy that the child hardly runs, the clock ends a step after this many times its limit. */
const clockFactor = 20;

/**
 * Follows what a child announces, and calls for its end when a step oversteps a limit. Time is the processor's, so that a
 * busy machine stops no step that an idle one would not.
 */
export class StepWatch {
  readonly #limits: StepLimits;
  readonly #pid: number;
  readonly #onOverstep: (stop: Stop) => void;
  #phase: "start" | "idle" | "step" = "start";
  #step: string | null = null;
  #since = 0;
  #processorSince: number | null = null;
  /** A limit was passed at the last look; the child is ended only if nothing was heard until the next. */
  #overdue = false;
  #rest = "";
  #timer: ReturnType<typeof setInterval> | null = null;

  constructor(pid: number, limits: StepLimits, onOverstep: (stop: Stop) => void) {
    this.#pid = pid;
    this.#limits = limits;
    this.#onOverstep = onOverstep;
  }

  /** The step under way; null between steps. */
  get step(): string | null {
    return this.#step;
  }

  /** Begins to look; `ready` where the child has said so already. */
  begin(ready: boolean): void {
    this.#mark(ready ? "idle" : "start", null);
    this.#timer ??= setInterval(() => this.#look(), lookEveryMs);
  }

  ready(): void {
    this.#mark("idle", null);
  }

  end(): void {
    if (this.#timer !== null) clearInterval(this.#timer);
    this.#timer = null;
  }

  /** Takes what came through the pipe of announcements. */
  hear(text: string): void {
    const lines = (this.#rest + text).split("\n");
    this.#rest = lines.pop() ?? "";
    for (const line of lines) {
      const said = parseAnnouncement(line);
      if (said === null) continue;
      if ("begins" in said) this.#mark("step", said.begins);
      else this.#mark("idle", null);
    }
  }

  #mark(phase: "start" | "idle" | "step", step: string | null): void {
    this.#phase = phase;
    this.#step = step;
    this.#since = performance.now();
    this.#processorSince = phase === "step" ? processorMs(this.#pid) : null;
    this.#overdue = false;
  }

  #look(): void {
    const limitMs = this.#limits[`${this.#phase}Ms`];
    if (this.#isOver(limitMs)) {
      // A parent that was busy itself looks at its timers before its pipes: give the child one look's time to be heard.
      if (this.#overdue) this.#overstep({ reason: "time", limitMs });
      this.#overdue = true;
    } else if (this.#step !== null) {
      const resident = residentMb(this.#pid);
      if (resident !== null && resident > this.#limits.residentMb) {
        this.#overstep({ reason: "memory", limitMb: this.#limits.residentMb });
      }
    }
  }

  #isOver(limitMs: number): boolean {
    const clock = performance.now() - this.#since;
    if (clock <= limitMs) return false;
    const processor = this.#processorSince === null ? null : processorMs(this.#pid);
    if (processor === null || this.#processorSince === null) return true;
    return processor - this.#processorSince > limitMs || clock > clockFactor * limitMs;
  }

  #overstep(stop: Stop): void {
    this.end();
    this.#onOverstep(stop);
  }
}
