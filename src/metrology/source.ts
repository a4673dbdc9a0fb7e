/** Shape of the distribution that an input of uncertainty is taken to have. */
export type Distribution = "normal" | "t" | "rectangular" | "triangular" | "arcsine";

/**
 * One source of uncertainty: an input that some quantities share. Two components with the same source id are fully
 * correlated; two with different ids are independent (JCGM 100:2008, 5.2).
 */
export interface Source {
  /** Unique in an archive, path-like: `rig/tester-a/force-span`, `stroke/u07/s2/KeyF/3/touch`. */
  readonly id: string;
  /** What the budget table prints: "Span of the force tester". Sources with one label may be shown as one line. */
  readonly label: string;
  /** A: evaluated from repeated observations; B: from any other information (JCGM 100:2008, 4.2 and 4.3). */
  readonly type: "A" | "B";
  readonly distribution: Distribution;
  /** Standard uncertainty of the input, in `symbol`; at least 0. */
  readonly u: number;
  /** Unit of measure of the input. */
  readonly symbol: string;
  /** Degrees of freedom; Infinity where the standard uncertainty is taken as exactly known. */
  readonly dof: number;
  /** Sources of one block were evaluated from the same observations and share their degrees of freedom. */
  readonly block?: string;
}

/** What one source contributes to one quantity. */
export interface Component {
  readonly source: Source;
  /** Sensitivity x u, signed, in the quantity's own symbol. */
  readonly contribution: number;
}

/** Number by which a half-width (or an expanded uncertainty at k = 2 for `normal`) is divided to get u (GUM 4.3). */
export function divisorOf(distribution: Distribution): number {
  if (distribution === "rectangular") return Math.sqrt(3);
  if (distribution === "triangular") return Math.sqrt(6);
  if (distribution === "arcsine") return Math.SQRT2;
  return 1;
}

/** A type B source from a half-width `a`: u = a / divisor. Throws where the half-width is not a number of at least 0. */
export function boundedSource(
  id: string,
  label: string,
  halfWidth: number,
  symbol: string,
  distribution: "rectangular" | "triangular" | "arcsine" = "rectangular",
): Source {
  if (!(halfWidth >= 0)) throw new RangeError(`the half-width of ${id} is ${halfWidth}; it must be at least 0`);
  return { id, label, type: "B", distribution, u: halfWidth / divisorOf(distribution), symbol, dof: Infinity };
}

/** A source whose standard uncertainty is stated, such as one from a certificate. */
export function normalSource(id: string, label: string, u: number, symbol: string, dof = Infinity): Source {
  if (!(u >= 0)) throw new RangeError(`the standard uncertainty of ${id} is ${u}; it must be at least 0`);
  return { id, label, type: "B", distribution: "normal", u, symbol, dof };
}

/** A source evaluated from the scatter of observations, with its degrees of freedom. */
export function observedSource(id: string, label: string, u: number, symbol: string, dof: number): Source {
  if (!(u >= 0)) throw new RangeError(`the standard uncertainty of ${id} is ${u}; it must be at least 0`);
  return { id, label, type: "A", distribution: "t", u, symbol, dof };
}
