import type { Evidence } from "./evidence.js";
import { evidenceStep } from "./evidence.js";
import type { Component } from "./source.js";

/**
 * A measured or computed value with its unit of measure, its named components of uncertainty and its evidence
 * (VIM 1.1, JCGM 100:2008 clause 5). Immutable. It refuses to be used as a bare number: write `derive`, or read `value`.
 */
export class Quantity<S extends string = string> {
  readonly absent = false as const;
  readonly value: number;
  readonly symbol: S;
  readonly components: readonly Component[];
  readonly evidence: Evidence;

  constructor(value: number, symbol: S, components: readonly Component[], evidence: Evidence) {
    if (!Number.isFinite(value)) {
      throw new RangeError(`a quantity in ${symbol} needs a finite value, got ${value}; use an Absent with a reason`);
    }
    this.value = value;
    this.symbol = symbol;
    this.components = mergeComponents(components);
    this.evidence = evidence;
    Object.freeze(this);
  }

  /** Combined standard uncertainty: equal sources already added signed, different ones in quadrature. */
  get u(): number {
    return Math.hypot(...this.components.map((c) => c.contribution));
  }

  [Symbol.toPrimitive](): never {
    throw new TypeError(
      `a quantity (${this.value} ${this.symbol}) cannot be used as a bare number or text: ` +
        "its uncertainty and evidence would be lost; combine quantities with derive([a, b], ([x, y]) => x / y, symbol)",
    );
  }
}

/** A result that is not there, and why. It travels through computations in place of a value. */
export class Absent<S extends string = string> {
  readonly absent = true as const;
  readonly symbol: S;
  /** A full clause for the page: "no local peak of at least 3 cN before actuation". */
  readonly reason: string;
  readonly evidence: Evidence;

  constructor(symbol: S, reason: string, evidence: Evidence = evidenceStep("not available", [])) {
    this.symbol = symbol;
    this.reason = reason;
    this.evidence = evidence;
    Object.freeze(this);
  }
}

/** A quantity, or the reason why there is none. */
export type Measured<S extends string = string> = Quantity<S> | Absent<S>;

/** Whether there is a quantity: then `value` and `u` may be read; otherwise `reason` says why there is none. */
export function isQuantity<S extends string>(measured: Measured<S>): measured is Quantity<S> {
  return !measured.absent;
}

/** A number of things counted: exact, without unit of measure; printed as it stands. */
export class Count {
  readonly count: number;
  readonly evidence: Evidence;

  constructor(count: number, evidence: Evidence = evidenceStep("count", [])) {
    if (!Number.isInteger(count) || count < 0) throw new RangeError(`a count must be a whole number, got ${count}`);
    this.count = count;
    this.evidence = evidence;
    Object.freeze(this);
  }

  [Symbol.toPrimitive](): number {
    return this.count;
  }
}

/**
 * Adds components of the same source with their signs. Throws where two sources share an id but not their standard
 * uncertainty, since they cannot then be one source.
 */
export function mergeComponents(components: readonly Component[]): readonly Component[] {
  const byId = new Map<string, { source: Component["source"]; contribution: number }>();
  for (const { source, contribution } of components) {
    if (!Number.isFinite(contribution)) {
      throw new RangeError(`the contribution of ${source.id} is ${contribution}; it must be finite`);
    }
    const known = byId.get(source.id);
    if (known === undefined) {
      byId.set(source.id, { source, contribution });
    } else {
      if (known.source.u !== source.u || known.source.symbol !== source.symbol) {
        throw new RangeError(
          `source ${source.id} has two standard uncertainties, ${known.source.u} ${known.source.symbol} and ` +
            `${source.u} ${source.symbol}; different inputs need different ids`,
        );
      }
      known.contribution += contribution;
    }
  }
  return Object.freeze([...byId.values()].map((c) => Object.freeze(c)));
}
