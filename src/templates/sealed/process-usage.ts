import { readFileSync } from "node:fs";

/** Ticks of a second in which Linux counts the time of a process, on every platform that Node supports. */
const ticksPerSecond = 100;

/** Memory that a process holds, in MB; null where the system does not tell (it does on Linux). */
export function residentMb(pid: number): number | null {
  const match = /^VmRSS:\s+(\d+) kB$/m.exec(readProcess(pid, "status") ?? "");
  return match === null ? null : Number(match[1]) / 1024;
}

/** Processor time that a process has used since it began, in ms; null where the system does not tell. */
export function processorMs(pid: number): number | null {
  // The name, in parentheses, may hold anything; utime and stime are the 12th and 13th fields after it (proc(5)).
  const fields = readProcess(pid, "stat")?.replace(/^.*\)\s/s, "").split(" ");
  if (fields === undefined) return null;
  const ticks = Number(fields[11]) + Number(fields[12]);
  return Number.isFinite(ticks) ? (ticks / ticksPerSecond) * 1000 : null;
}

function readProcess(pid: number, file: string): string | null {
  try {
    return readFileSync(`/proc/${pid}/${file}`, "utf8");
  } catch {
    return null;
  }
}
