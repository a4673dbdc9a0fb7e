/** A ratio of whole numbers; the denominator is above 0. */
export interface Ratio {
  readonly top: bigint;
  readonly bottom: bigint;
}

const abs = (a: bigint): bigint => (a < 0n ? -a : a);

function gcd(a: bigint, b: bigint): bigint {
  let [x, y] = [abs(a), abs(b)];
  while (y !== 0n) [x, y] = [y, x % y];
  return x;
}

export function ratio(top: bigint, bottom = 1n): Ratio {
  if (bottom === 0n) throw new RangeError("a ratio over 0");
  const common = gcd(top, bottom) || 1n;
  const sign = bottom < 0n ? -1n : 1n;
  return { top: (sign * top) / common, bottom: (sign * bottom) / common };
}

export const plus = (a: Ratio, b: Ratio): Ratio => ratio(a.top * b.bottom + b.top * a.bottom, a.bottom * b.bottom);
export const minus = (a: Ratio, b: Ratio): Ratio => ratio(a.top * b.bottom - b.top * a.bottom, a.bottom * b.bottom);
export const times = (a: Ratio, b: Ratio): Ratio => ratio(a.top * b.top, a.bottom * b.bottom);
export const over = (a: Ratio, b: Ratio): Ratio => ratio(a.top * b.bottom, a.bottom * b.top);

/** A double exactly: every finite one is a whole number over a power of two. */
export function ofDouble(value: number): Ratio {
  if (!Number.isFinite(value)) throw new RangeError(`${value} is not finite`);
  let scale = 0;
  let whole = value;
  while (!Number.isInteger(whole)) {
    whole *= 2;
    scale++;
  }
  return ratio(BigInt(whole), 1n << BigInt(scale));
}

/** Decimal text such as "5.11462616000000E-02" exactly. */
export function ofDecimal(text: string): Ratio {
  const match = /^(-?)(\d+)(?:\.(\d*))?(?:[eE]([+-]?\d+))?$/.exec(text.trim());
  if (match === null) throw new RangeError(`"${text}" is not a decimal number`);
  const [, sign, whole, part = "", power = "0"] = match;
  const exponent = Number(power) - part.length;
  const digits = BigInt(`${sign}${whole}${part}`);
  return exponent >= 0 ? ratio(digits * 10n ** BigInt(exponent)) : ratio(digits, 10n ** BigInt(-exponent));
}

/** Square root to some 40 digits. */
export function root(a: Ratio): Ratio {
  if (a.top < 0n) throw new RangeError("a root of a negative number");
  if (a.top === 0n) return a;
  const scale =
    10n ** 80n * 10n ** BigInt(Math.max(0, 2 * Math.ceil((a.bottom.toString().length - a.top.toString().length) / 2)));
  const target = (a.top * scale) / a.bottom;
  let x = 1n << BigInt((target.toString(2).length + 1) >> 1);
  for (;;) {
    const next = (x + target / x) >> 1n;
    if (next >= x) break;
    x = next;
  }
  return ratio(x, sqrtOfEvenPower(scale));
}

function sqrtOfEvenPower(scale: bigint): bigint {
  return 10n ** BigInt((scale.toString().length - 1) / 2);
}

/** The nearest double or its neighbour. */
export function toDouble(a: Ratio): number {
  if (a.top === 0n) return 0;
  const shift = 20 + a.bottom.toString().length - abs(a.top).toString().length;
  const scaled = shift >= 0 ? (a.top * 10n ** BigInt(shift)) / a.bottom : a.top / (a.bottom * 10n ** BigInt(-shift));
  return Number(`${scaled}e${-shift}`);
}

/** Correct digits of a value against a certified one: -log10 of the relative error (of the absolute one for 0), 0 to 15. */
export function correctDigits(value: Ratio, certified: Ratio): number {
  const off = minus(value, certified);
  if (off.top === 0n) return 15;
  const relative = certified.top === 0n ? off : over(off, certified);
  return Math.max(0, Math.min(15, -Math.log10(Math.abs(toDouble(relative)))));
}

/** Solves a small linear system by elimination. */
export function solveExactly(matrix: readonly (readonly Ratio[])[], right: readonly Ratio[]): readonly Ratio[] {
  const rows = matrix.map((row, i) => [...row, right[i]!]);
  const n = rows.length;
  for (let j = 0; j < n; j++) {
    const pivot = rows.findIndex((row, i) => i >= j && row[j]!.top !== 0n);
    if (pivot < 0) throw new RangeError("the system is singular");
    [rows[j], rows[pivot]] = [rows[pivot]!, rows[j]!];
    const lead = rows[j]![j]!;
    rows[j] = rows[j]!.map((value) => over(value, lead));
    for (let i = 0; i < n; i++) {
      const factor = rows[i]![j]!;
      if (i === j || factor.top === 0n) continue;
      rows[i] = rows[i]!.map((value, k) => minus(value, times(factor, rows[j]![k]!)));
    }
  }
  return rows.map((row) => row[n]!);
}
