import { writeSync } from "node:fs";
import type { ChildMessage, RequestMessage, Stop } from "./protocol.js";
import { announceDescriptor } from "./protocol.js";

/** What a handler in a sealed child is given beside its request. */
export interface SealedSeat {
  /**
   * Runs one step under the parent's limits of time and memory. Whatever may run code of a template belongs in a step:
   * its cells, and the drawing of their charts. Steps do not nest.
   * @param name without line ends; the same name for all that belongs to one cell
   */
  readonly step: <T>(name: string, run: () => T) => T;
  /** Steps that ended an earlier child at this request, by name: the handler must not run them again. */
  readonly stopped: ReadonlyMap<string, Stop>;
}

/**
 * The child's side: answers requests one by one until the parent leaves. To be called once everything is loaded and the
 * process is sealed. What the handler throws is a fault of the tool and is reported to the parent as one.
 */
export function serveSealed<Request, Reply>(
  handler: (request: Request, seat: SealedSeat) => Reply | Promise<Reply>,
): void {
  const send = (message: ChildMessage): void => void process.send?.(message);
  const answer = async ({ id, body, stopped }: RequestMessage): Promise<void> => {
    try {
      const reply = await handler(body as Request, { step, stopped: new Map(stopped) });
      send({ kind: "reply", id, body: reply });
    } catch (error) {
      send({ kind: "fault", id, message: error instanceof Error ? `${error.name}: ${error.message}` : String(error) });
    }
  };
  process.on("message", (message) => void answer(message as RequestMessage));
  process.on("disconnect", () => process.exit(0));
  send({ kind: "ready" });
}

function step<T>(name: string, run: () => T): T {
  announce(`+${name}`);
  try {
    return run();
  } finally {
    announce("-");
  }
}

/** Most attempts to write into a pipe that the parent has not emptied yet. */
const attempts = 10_000;

function announce(line: string): void {
  for (let attempt = 0; attempt < attempts; attempt++) {
    try {
      writeSync(announceDescriptor, `${line}\n`);
      return;
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== "EAGAIN") throw error;
    }
  }
}
