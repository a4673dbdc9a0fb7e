import type { Evidence } from "../metrology/evidence.js";
import { evidenceLeaves } from "../metrology/evidence.js";
import type { Count, Measured, Quantity } from "../metrology/quantity.js";
import type { Verdict } from "../metrology/verdict.js";

/** A number, an absence or a statement that the page prints and must be able to justify. */
export type Grounded = Measured | Count | Verdict;

/** What a ground is about, beside its numbers. */
export interface GroundHead {
  readonly label: string;
  /** Indices of the cells that worked it out. */
  readonly workings: readonly number[];
  /** Numbers that a figure draws; the grounds of other numbers follow their evidence and do not cite them. */
  readonly drawn?: true;
}

/** One line of a ground: one printed number with its mark. */
export interface GroundEntry {
  readonly subject: Grounded;
  readonly label: string;
  readonly anchor: string;
  readonly ground: Ground;
  /** 1-based place in a ground of several; 0 in a ground of one. */
  readonly place: number;
}

/** The evidence of one number, or of several of one kind that belong together, such as a column of a table. */
export interface Ground {
  readonly section: string;
  readonly letter: string;
  readonly anchor: string;
  readonly head: GroundHead;
  readonly entries: readonly GroundEntry[];
}

/**
 * Gives every printed number its ground, in page order: lettered within a section, each number once however often it is
 * printed. Two numbers are one where evidence, value and unit of measure agree.
 */
export class GroundBook {
  readonly #grounds: Ground[] = [];
  readonly #byEvidence = new Map<Evidence, GroundEntry[]>();
  readonly #verdicts: GroundEntry[] = [];
  /** Entries printed outside figures, whose numbers may be cited in place of their evidence. */
  readonly #printed = new Set<GroundEntry>();
  readonly #awaited = new Map<Evidence, (Measured | Count)[]>();
  #section = "";

  /** Numbers met from now on belong to this section. */
  open(section: string): void {
    this.#section = section;
  }

  /** Announces a number that a table or a figure prints, so that a verdict's citing it earlier does not move its ground. */
  await(number: Measured | Count): void {
    const known = this.#awaited.get(number.evidence) ?? [];
    if (!known.some((other) => sameNumber(other, number))) this.#awaited.set(number.evidence, [...known, number]);
  }

  get section(): string {
    return this.#section;
  }

  /** Grounds of a section, in page order. */
  of(section: string): readonly Ground[] {
    return this.#grounds.filter((ground) => ground.section === section);
  }

  get all(): readonly Ground[] {
    return this.#grounds;
  }

  /** The ground of one number; null for a count or a text whose evidence names no raw rows. */
  cite(subject: Grounded, head: GroundHead): GroundEntry | null {
    return this.citeAll([{ subject, label: head.label }], head)[0] ?? null;
  }

  /** Grounds of numbers that belong together: those not yet in the book become one ground, if there are several. */
  citeAll(
    subjects: readonly { readonly subject: Grounded; readonly label: string }[],
    head: GroundHead,
  ): readonly (GroundEntry | null)[] {
    const fresh: { subject: Grounded; label: string }[] = [];
    for (const item of subjects) {
      if (!this.#grounded(item.subject) || this.#find(item.subject) !== null) continue;
      if (!fresh.some((other) => sameNumber(other.subject, item.subject))) fresh.push(item);
    }
    const verdicts = fresh.filter((item) => isVerdict(item.subject));
    const cites = verdicts.flatMap((item) => (isVerdict(item.subject) ? item.subject.cites : []));
    const homeless = cites.filter((number) => !this.#isAwaited(number));
    if (homeless.length > 0) {
      this.citeAll(
        homeless.map((subject, index) => ({ subject, label: `value ${index + 1}` })),
        { label: `Cited for: ${head.label}`, workings: head.workings },
      );
    }
    this.#add(
      fresh.filter((item) => !isVerdict(item.subject)),
      head,
    );
    this.#add(verdicts, head);
    const entries = subjects.map((item) => this.#find(item.subject));
    if (head.drawn !== true) for (const entry of entries) if (entry !== null) this.#printed.add(entry);
    return entries;
  }

  /** The first quantity printed outside figures whose evidence a node is; several that share it have the same steps. */
  numberAt(node: Evidence): GroundEntry | null {
    const entries = this.#byEvidence.get(node) ?? [];
    return entries.find((entry) => isPlainQuantity(entry.subject) && this.#printed.has(entry)) ?? null;
  }

  /** The ground of something that was cited before; null where it has none. */
  find(subject: Grounded): GroundEntry | null {
    return this.#find(subject);
  }

  #isAwaited(number: Measured | Count): boolean {
    return (this.#awaited.get(number.evidence) ?? []).some((other) => sameNumber(other, number));
  }

  #grounded(subject: Grounded): boolean {
    if (!isCount(subject)) return true;
    return evidenceLeaves(subject.evidence).length > 0;
  }

  #find(subject: Grounded): GroundEntry | null {
    const entries = isVerdict(subject) ? this.#verdicts : (this.#byEvidence.get(subject.evidence) ?? []);
    return entries.find((entry) => sameNumber(entry.subject, subject)) ?? null;
  }

  #add(items: readonly { readonly subject: Grounded; readonly label: string }[], head: GroundHead): void {
    if (items.length === 0) return;
    const letter = letters(this.#grounds.filter((ground) => ground.section === this.#section).length);
    const anchor = `g-${this.#section}-${letter}`;
    const entries: GroundEntry[] = [];
    const ground: Ground = { section: this.#section, letter, anchor, head, entries };
    items.forEach(({ subject, label }, index) => {
      const place = items.length === 1 ? 0 : index + 1;
      const entry = { subject, label, ground, place, anchor: place === 0 ? anchor : `${anchor}-${place}` };
      entries.push(entry);
      if (isVerdict(subject)) this.#verdicts.push(entry);
      else this.#byEvidence.set(subject.evidence, [...(this.#byEvidence.get(subject.evidence) ?? []), entry]);
    });
    this.#grounds.push(ground);
  }
}

/** The mark of a number, "c" or "c3"; read from another section with that section before it, "2c3". */
export function markText(entry: GroundEntry, from: string): string {
  const { section, letter } = entry.ground;
  return `${section === from ? "" : section}${letter}${entry.place === 0 ? "" : entry.place}`;
}

export function isVerdict(value: Grounded): value is Verdict {
  return "kind" in value;
}

export function isCount(value: Grounded): value is Count {
  return "count" in value;
}

/** Whether something has a value and an uncertainty. */
export function isPlainQuantity(value: Grounded): value is Quantity {
  return !isVerdict(value) && !isCount(value) && !value.absent;
}

function sameNumber(a: Grounded, b: Grounded): boolean {
  if (isVerdict(a) || isVerdict(b)) {
    if (!isVerdict(a) || !isVerdict(b)) return false;
    return a === b || (a.statement === b.statement && a.rule === b.rule && sameCites(a, b));
  }
  if (a.evidence !== b.evidence) return false;
  if (isCount(a) || isCount(b)) return isCount(a) && isCount(b) && a.count === b.count;
  if (a.absent || b.absent) return a.absent && b.absent && a.symbol === b.symbol && a.reason === b.reason;
  return a.value === b.value && a.symbol === b.symbol && a.u === b.u;
}

function sameCites(a: Verdict, b: Verdict): boolean {
  return (
    a.outcome === b.outcome &&
    a.family === b.family &&
    a.cites.length === b.cites.length &&
    a.cites.every((cited, index) => sameNumber(cited, b.cites[index]!))
  );
}

/** a, b, ... z, aa, ab, ... */
export function letters(index: number): string {
  let text = "";
  for (let rest = index + 1; rest > 0; rest = Math.floor((rest - 1) / 26)) {
    text = String.fromCharCode(97 + ((rest - 1) % 26)) + text;
  }
  return text;
}
