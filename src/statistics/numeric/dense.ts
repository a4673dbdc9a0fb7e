/** A dense matrix as rows. Small symmetric systems are solved here because a likelihood needs thousands of them. */
export type Rows = readonly (readonly number[])[];

/** Lower Cholesky factor of a symmetric matrix (its lower triangle is read), or undefined where it is not positive definite. */
export function choleskyOf(matrix: Rows): Rows | undefined {
  const n = matrix.length;
  const lower: number[][] = [];
  for (let i = 0; i < n; i++) {
    const row = new Array<number>(n).fill(0);
    for (let j = 0; j <= i; j++) {
      const other = j === i ? row : lower[j]!;
      let total = matrix[i]![j]!;
      for (let k = 0; k < j; k++) total -= row[k]! * other[k]!;
      if (j < i) row[j] = total / other[j]!;
      else if (total > 1e-14 * Math.abs(matrix[i]![i]!)) row[i] = Math.sqrt(total);
      else return undefined;
    }
    lower.push(row);
  }
  return lower;
}

/** Solves L X = B for a lower triangular L, column by column of B. */
export function forwardSolve(lower: Rows, right: Rows): number[][] {
  const width = right[0]?.length ?? 0;
  const out: number[][] = [];
  for (let i = 0; i < lower.length; i++) {
    const row = [...right[i]!];
    for (let k = 0; k < i; k++) {
      const factor = lower[i]![k]!;
      if (factor === 0) continue;
      const above = out[k]!;
      for (let c = 0; c < width; c++) row[c]! -= factor * above[c]!;
    }
    const pivot = lower[i]![i]!;
    for (let c = 0; c < width; c++) row[c]! /= pivot;
    out.push(row);
  }
  return out;
}

/** Solves L' x = b for a lower triangular L. */
export function backSolve(lower: Rows, right: readonly number[]): number[] {
  const x = [...right];
  for (let i = lower.length - 1; i >= 0; i--) {
    for (let k = i + 1; k < lower.length; k++) x[i]! -= lower[k]![i]! * x[k]!;
    x[i]! /= lower[i]![i]!;
  }
  return x;
}

/** A'B of two matrices with equally many rows. */
export function crossProduct(a: Rows, b: Rows): number[][] {
  const width = b[0]?.length ?? 0;
  const out = Array.from({ length: a[0]?.length ?? 0 }, () => new Array<number>(width).fill(0));
  for (let r = 0; r < a.length; r++) {
    const left = a[r]!;
    const right = b[r]!;
    for (let i = 0; i < left.length; i++) {
      const factor = left[i]!;
      if (factor === 0) continue;
      const row = out[i]!;
      for (let j = 0; j < width; j++) row[j]! += factor * right[j]!;
    }
  }
  return out;
}

/** ln of the determinant from the Cholesky factor. */
export function logDeterminant(lower: Rows): number {
  return lower.reduce((total, row, i) => total + 2 * Math.log(row[i]!), 0);
}
