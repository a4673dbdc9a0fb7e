import { spawn } from "node:child_process";
import type { ChildProcess } from "node:child_process";
import { mkdtempSync, readFileSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

export interface Ended {
  readonly code: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

export interface RunSettings {
  readonly cwd?: string;
  readonly env?: Readonly<Record<string, string>>;
  /** Told of the running process, for signals. */
  readonly onStart?: (child: ChildProcess) => void;
}

export const repository = fileURLToPath(new URL("../../", import.meta.url));
const main = join(repository, "dist/cli/main.js");

/** Runs the compiled program and waits for its end. */
export function runBenchfolio(args: readonly string[], settings: RunSettings = {}): Promise<Ended> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [main, ...args], {
      cwd: settings.cwd ?? repository,
      env: { PATH: process.env["PATH"] ?? "", HOME: process.env["HOME"] ?? "", ...settings.env },
      stdio: ["ignore", "pipe", "pipe"],
    });
    let stdout = "";
    let stderr = "";
    child.stdout.on("data", (chunk: Buffer) => (stdout += chunk.toString()));
    child.stderr.on("data", (chunk: Buffer) => (stderr += chunk.toString()));
    child.on("error", reject);
    child.on("close", (code) => resolve({ code, stdout, stderr }));
    settings.onStart?.(child);
  });
}

/** A temporary folder that is removed after use. */
export async function inTemporaryFolder<T>(use: (folder: string) => Promise<T>): Promise<T> {
  const folder = mkdtempSync(join(tmpdir(), "benchfolio-test-"));
  try {
    return await use(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Every page of a folder by name. */
export function readPages(folder: string): Readonly<Record<string, string>> {
  const names = readdirSync(folder).filter((name) => name.endsWith(".html"));
  return Object.fromEntries(names.map((name) => [name, readFileSync(join(folder, name), "utf8")]));
}
