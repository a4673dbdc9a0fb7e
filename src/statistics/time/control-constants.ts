import { checkWhole } from "../numeric/guards.js";
import { normalCdf } from "../numeric/distributions.js";
import { c4 } from "../numeric/gamma.js";
import { integral } from "../numeric/quadrature.js";

export interface ControlConstants {
  readonly c4: number;
  readonly d2: number;
  readonly d3: number;
  readonly A2: number;
  readonly A3: number;
  readonly B3: number;
  readonly B4: number;
  readonly D3: number;
  readonly D4: number;
}

/**
 * Control chart constants for subgroups of n normal values: c4 = E(s)/σ, d2 = E(range)/σ, d3 = sd(range)/σ by integration, and
 * A2 = 3/(d2√n), A3 = 3/(c4√n), B3, B4 = 1 ∓ 3√(1 - c4²)/c4, D3, D4 = 1 ∓ 3d3/d2 (not below 0).
 * @param n subgroup size, 2 to 100
 * @throws RangeError on another size
 * Source: ISO 7870-2:2013, table 2; Tippett, Biometrika 17 (1925) 364 (range).
 */
export function controlConstantsKernel(n: number): ControlConstants {
  checkWhole(n, 2, "the subgroup size");
  if (n > 100) throw new RangeError(`the subgroup size is ${n}; at most 100`);
  const d2 = integral((x) => 1 - (1 - normalCdf(x)) ** n - normalCdf(x) ** n, -9, 9, 12);
  // E(R²) = 2 ∫∫_{x<y} (1 - Φ(y)^n - (1 - Φ(x))^n + (Φ(y) - Φ(x))^n) dx dy
  const square =
    2 *
    integral(
      (x) =>
        integral((y) => 1 - normalCdf(y) ** n - (1 - normalCdf(x)) ** n + (normalCdf(y) - normalCdf(x)) ** n, x, 9, 3),
      -9,
      9,
      8,
    );
  const d3 = Math.sqrt(square - d2 * d2);
  const c = c4(n);
  const ofS = (3 * Math.sqrt(1 - c * c)) / c;
  return {
    c4: c,
    d2,
    d3,
    A2: 3 / (d2 * Math.sqrt(n)),
    A3: 3 / (c * Math.sqrt(n)),
    B3: Math.max(0, 1 - ofS),
    B4: 1 + ofS,
    D3: Math.max(0, 1 - (3 * d3) / d2),
    D4: 1 + (3 * d3) / d2,
  };
}
