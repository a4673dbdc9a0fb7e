/** Exit codes of every command; CHANGELOG.md names a change of meaning. */
export const exitCodes = {
  done: 0,
  /** A check found problems, or a cell failed: what could be built was built. */
  problems: 1,
  /** Wrong usage or unreadable input: nothing was written. */
  usage: 2,
  /** A fault of the program itself. */
  fault: 70,
  /** Ended by Ctrl-C. */
  interrupted: 130,
  /** Ended by another process. */
  terminated: 143,
} as const;

/** The user's mistake, said in one sentence with its remedy; printed without a stack. */
export class UsageError extends Error {
  readonly hint: string;

  constructor(message: string, hint: string) {
    super(message);
    this.hint = hint;
  }
}
