import type { Source } from "../metrology/source.js";
import { observedSource } from "../metrology/source.js";

/** Makes the sources that belong to one cycle; their ids end in what they are. */
export interface StrokeSources {
  /** Type A, from the scatter of readings about a fit. */
  readonly noise: (name: string, label: string, u: number, symbol: string, dof: number) => Source;
  /** Type B, rectangular, from a stated standard uncertainty such as a spacing / sqrt(12). */
  readonly grid: (name: string, label: string, u: number, symbol: string) => Source;
  /** Type B, the same for every cycle and key of the session; its size is carried by the contribution. */
  readonly session: (name: string, label: string) => Source;
}

/**
 * Sources of one cycle of one key.
 * @param path of the session: `session/u07/s2`
 */
export function strokeSources(path: string, key: string, cycle: number): StrokeSources {
  const stroke = `stroke/${path.replace(/^session\//, "")}/${key}/${cycle}`;
  return {
    noise: (name, label, u, symbol, dof) =>
      observedSource(`${stroke}/${name}`, label, u, symbol, dof > 0 ? dof : Infinity),
    grid: (name, label, u, symbol) => rectangular(`${stroke}/${name}`, label, u, symbol),
    session: (name, label) => rectangular(`${path}/${name}`, label, 1, "1"),
  };
}

function rectangular(id: string, label: string, u: number, symbol: string): Source {
  return { id, label, type: "B", distribution: "rectangular", u, symbol, dof: Infinity };
}
