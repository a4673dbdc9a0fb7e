import { readFileSync } from "node:fs";
import type { Stop } from "./protocol.js";
import { parseAnnouncement } from "./protocol.js";

export interface StepLimits {
  /** Longest time of one step, and longest time between steps. */
  readonly stepMs: number;
  readonly idleMs: number;
  /** Most memory of the whole process; looked at only where the system tells it (Linux). */
  readonly residentMb: number;
}

/** How often the limits are looked at. */
const lookEveryMs = 25;

/** Follows what a child announces, and calls for its end when a step oversteps a limit. */
export class StepWatch {
  readonly #limits: StepLimits;
  readonly #pid: number;
  readonly #onOverstep: (stop: Stop) => void;
  #step: string | null = null;
  #since = 0;
  /** The limit was passed at the last look; killed only if nothing was heard until the next. */
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

  start(): void {
    this.#step = null;
    this.#mark();
    this.#timer = setInterval(() => this.#look(), lookEveryMs);
  }

  stop(): void {
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
      this.#step = "begins" in said ? said.begins : null;
      this.#mark();
    }
  }

  #mark(): void {
    this.#since = performance.now();
    this.#overdue = false;
  }

  #look(): void {
    const limitMs = this.#step === null ? this.#limits.idleMs : this.#limits.stepMs;
    if (performance.now() - this.#since > limitMs) {
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

  #overstep(stop: Stop): void {
    this.stop();
    this.#onOverstep(stop);
  }
}

/** Memory that a process holds, in MB; null where the system does not tell. */
export function residentMb(pid: number): number | null {
  try {
    const match = /^VmRSS:\s+(\d+) kB$/m.exec(readFileSync(`/proc/${pid}/status`, "utf8"));
    return match === null ? null : Number(match[1]) / 1024;
  } catch {
    return null;
  }
}
