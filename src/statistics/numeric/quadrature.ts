import { sdRatioDensity } from "./gamma.js";

const order = 24;

/** Nodes and weights of Gauss-Legendre quadrature on -1 to 1 (Newton's method on the Legendre polynomial). */
function gaussLegendre(n: number): { readonly nodes: readonly number[]; readonly weights: readonly number[] } {
  const nodes: number[] = [];
  const weights: number[] = [];
  for (let i = 0; i < n; i++) {
    let x = Math.cos((Math.PI * (i + 0.75)) / (n + 0.5));
    let slope = 0;
    for (let step = 0; step < 100; step++) {
      let p0 = 1;
      let p1 = x;
      for (let k = 2; k <= n; k++) [p0, p1] = [p1, ((2 * k - 1) * x * p1 - (k - 1) * p0) / k];
      slope = (n * (x * p1 - p0)) / (x * x - 1);
      const change = p1 / slope;
      x -= change;
      if (Math.abs(change) < 1e-16) break;
    }
    nodes.push(x);
    weights.push(2 / ((1 - x * x) * slope * slope));
  }
  return { nodes, weights };
}

const rule = Object.freeze(gaussLegendre(order));

/** Integral of a smooth function over `pieces` equal pieces by Gauss-Legendre quadrature with 24 nodes a piece. */
export function integral(f: (x: number) => number, low: number, high: number, pieces = 8): number {
  const width = (high - low) / pieces;
  let total = 0;
  for (let piece = 0; piece < pieces; piece++) {
    const centre = low + (piece + 0.5) * width;
    for (let i = 0; i < order; i++) total += rule.weights[i]! * f(centre + (rule.nodes[i]! * width) / 2);
  }
  return (total * width) / 2;
}

/**
 * Mean of a function of the ratio s of a sample sd to the true one, over its distribution with the stated degrees of freedom.
 * Integrated over ln s, since with few degrees of freedom much happens near 0.
 */
export function overSdRatio(f: (s: number) => number, dof: number, pieces = 12): number {
  const low = Math.max(1 - 9 / Math.sqrt(dof), 0.3 * 10 ** (-14 / dof));
  const high = 1 + 9 / Math.sqrt(dof);
  return integral(
    (x) => {
      const s = Math.exp(x);
      return f(s) * sdRatioDensity(s, dof) * s;
    },
    Math.log(low),
    Math.log(high),
    pieces,
  );
}
