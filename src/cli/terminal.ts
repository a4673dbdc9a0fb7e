import { SingleBar } from "cli-progress";
import picocolors from "picocolors";

/** Where a command writes: a person's terminal, a log, or a machine. */
export interface Terminal {
  /** One line of the result, on standard output. */
  line(text: string): void;
  /** One line about the run or its problems, on standard error. */
  note(text: string): void;
  /** A JSON value, on standard output. */
  json(value: unknown): void;
  readonly colours: Colours;
  /** A bar on a terminal; a plain line at the start of each stage elsewhere; nothing where the output is JSON. */
  progress(stage: string, total: number): Progress;
}

export interface Progress {
  step(): void;
  done(): void;
}

export type Colours = Pick<typeof picocolors, "bold" | "dim" | "red" | "yellow" | "green" | "cyan">;

export interface TerminalOptions {
  readonly json: boolean;
}

const silent: Progress = { step: () => undefined, done: () => undefined };

/** Opens the terminal of this process. Colours obey NO_COLOR and FORCE_COLOR, and are off where the output is a file. */
export function openTerminal(options: TerminalOptions): Terminal {
  const { stdout, stderr } = process;
  const wantsColour = process.env["NO_COLOR"] === undefined || process.env["NO_COLOR"] === "";
  const forced = process.env["FORCE_COLOR"] !== undefined && process.env["FORCE_COLOR"] !== "0";
  const colours = picocolors.createColors(wantsColour && (forced || (stdout.isTTY && process.env["TERM"] !== "dumb")));
  const note = (text: string): void => void stderr.write(`${text}\n`);
  return {
    line: (text) => void stdout.write(`${text}\n`),
    note,
    json: (value) => void stdout.write(`${JSON.stringify(value, null, 2)}\n`),
    colours,
    progress: (stage, total) => {
      if (options.json || total === 0) return silent;
      if (!stderr.isTTY || process.env["TERM"] === "dumb") {
        note(`${stage} (${total})`);
        return silent;
      }
      const bar = new SingleBar({
        format: `${stage.padEnd(22)} {bar} {value}/{total}`,
        barCompleteChar: "\u2501",
        barIncompleteChar: "\u2508",
        hideCursor: true,
        clearOnComplete: true,
        stream: stderr,
      });
      bar.start(total, 0);
      return { step: () => bar.increment(), done: () => bar.stop() };
    },
  };
}
