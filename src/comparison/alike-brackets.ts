import type { AlikeGroups } from "./alike-groups.js";

/** A run of neighbouring positions of which no two can be told apart. */
export interface AlikeBracket {
  /** First and last position in `order`, from 0. */
  readonly first: number;
  readonly last: number;
}

export interface AlikeBrackets {
  /** Runs of two or more, each as long as it can be, in order; they overlap, since likeness is not transitive. */
  readonly brackets: readonly AlikeBracket[];
  /** Pairs that cannot be told apart although one between them can be told from either, which no bracket can show. */
  readonly unshown: readonly (readonly [number, number])[];
}

/**
 * Groups that cannot be told apart as brackets over the order of values. A bracket joins only neighbours, so a pair that is
 * alike across an item with a smaller uncertainty stands in no bracket and is listed apart: a bracket never joins two that differ.
 */
export function alikeBrackets({ order, pValues, level }: Omit<AlikeGroups<unknown>, "groups">): AlikeBrackets {
  const n = order.length;
  const alike = (i: number, j: number): boolean => pValues[i]![j]! > level;
  const brackets: AlikeBracket[] = [];
  for (let first = 0; first < n; first++) {
    let last = first;
    while (last + 1 < n && range(first, last).every((k) => alike(k, last + 1))) last++;
    if (last > first && !brackets.some((other) => other.last >= last)) brackets.push({ first, last });
  }
  const isShown = (i: number, j: number): boolean => brackets.some(({ first, last }) => first <= i && j <= last);
  const unshown = order.flatMap((_, i) =>
    range(i + 1, n - 1).flatMap((j) => (alike(i, j) && !isShown(i, j) ? [[i, j] as const] : [])),
  );
  return { brackets, unshown };
}

function range(from: number, to: number): readonly number[] {
  return Array.from({ length: Math.max(0, to - from + 1) }, (_, i) => from + i);
}
