import { Absent, Quantity, evidenceStep, isQuantity, observedSource } from "../metrology/index.js";
import type { Component, Measured } from "../metrology/index.js";
import { Undetermined } from "../statistics/numeric/guards.js";
import { nestedKernel } from "../statistics/variance/nested.js";

export interface MountingOptions<Item> {
  /** Everything that is the same for all mountings that are compared: unit, key, operator, rig, day. */
  readonly cell: (item: Item) => string;
  /** The mounting within the cell. */
  readonly mount: (item: Item) => string;
  /** Of what, for budgets: "actuationForce". */
  readonly name: string;
}

/** Standard deviation of mounting a unit anew, with what it is known from. */
export interface MountingScatter<S extends string = string> {
  /** A value with its own uncertainty; absent, with the reason, where the readings cannot separate it. */
  readonly sd: Measured<S>;
  /** Effective degrees of freedom of the estimate; 0 where it is absent. */
  readonly dof: number;
}

/**
 * Scatter from mounting to mounting of the same unit, from readings repeated within mountings: the nested component
 * (MS_mount - MS_repeat)/r, 0 where that is negative, with Satterthwaite's degrees of freedom.
 *
 * @param items readings of one characteristic, the same number a mounting and the same number of mountings a cell
 * @param accessor the reading; absent ones are left out
 * @throws RangeError where the symbols differ
 * Source: Searle, Casella and McCulloch, Variance Components (1992), 3.8; Satterthwaite, Biometrics Bulletin 2 (1946) 110.
 */
export function mountingScatter<Item, S extends string>(
  items: readonly Item[],
  accessor: (item: Item) => Measured<S>,
  options: MountingOptions<Item>,
): MountingScatter<S> {
  const rows = items.flatMap((item) => {
    const value = accessor(item);
    return isQuantity(value) ? [{ value, cell: options.cell(item), mount: options.mount(item) }] : [];
  });
  const first = rows[0];
  const odd = rows.find(({ value }) => value.symbol !== first!.value.symbol);
  if (odd !== undefined) throw new RangeError(`readings in ${first!.value.symbol} and in ${odd.value.symbol}`);
  const evidence = evidenceStep(
    `scatter between mountings, ${rows.length} readings`,
    rows.map(({ value }) => value.evidence),
  );
  if (first === undefined) {
    return {
      sd: new Absent(items.length > 0 ? accessor(items[0]!).symbol : ("1" as S), "there are no readings"),
      dof: 0,
    };
  }
  try {
    const lines = nestedKernel(
      rows.map(({ value }) => value.value),
      { cell: rows.map(({ cell }) => cell), mount: rows.map(({ mount }) => mount) },
    );
    const [cell, mount, repeat] = [lines[0]!, lines[1]!, lines[2]!];
    const repeats = rows.length / (cell.dof + 1 + mount.dof);
    const { variance } = mount.component;
    const spread = (mount.ms / repeats) ** 2 / mount.dof + (repeat.ms / repeats) ** 2 / repeat.dof;
    const dof = variance > 0 ? Math.max(1, variance ** 2 / spread) : mount.dof;
    const sd = Math.sqrt(variance);
    const u = sd === 0 ? 0 : Math.sqrt(2 * spread) / (2 * sd);
    const source = observedSource(
      `study/mounting/${options.name}/sd`,
      "Few mountings behind the standard deviation",
      u,
      first.value.symbol,
      dof,
    );
    const components = u === 0 ? [] : [{ source, contribution: u }];
    return { sd: new Quantity(sd, first.value.symbol, components, evidence), dof };
  } catch (error) {
    if (!(error instanceof Undetermined)) throw error;
    return { sd: new Absent(first.value.symbol, error.message, evidence), dof: 0 };
  }
}

/**
 * Adds to a change between two sessions that each of them was mounted by itself: two sources of the mounting's standard
 * deviation, one a session. Without an estimate the change comes back as it is.
 *
 * @param sessions ids that name the two mountings: "u07/s1", "u07/s2"
 */
export function withMounting<S extends string>(
  change: Measured<S>,
  scatter: MountingScatter<S>,
  sessions: readonly [string, string],
  name: string,
): Measured<S> {
  const { sd, dof } = scatter;
  if (!isQuantity(change) || !isQuantity(sd) || sd.value === 0) return change;
  const mounted = sessions.map((session): Component => {
    const id = `session/${session}/mounting/${name}`;
    return { source: observedSource(id, "Mounting the unit anew", sd.value, sd.symbol, dof), contribution: sd.value };
  });
  const evidence = evidenceStep("with the scatter of mountings", [change.evidence, sd.evidence]);
  return new Quantity(change.value, change.symbol, [...change.components, ...mounted], evidence);
}
