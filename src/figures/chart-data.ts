import type { ChartData, DataCell, DataColumn } from "./chart.js";

/** A column of a chart's table, with how its cell is read from an item. */
export interface DataColumnOf<T> extends DataColumn {
  readonly value: (item: T, index: number) => DataCell;
}

/**
 * The table beside a chart, one row an item.
 * @param items what was drawn, in order; without items the table has its head alone
 * @param columns `name` for the CSV file, `label` for the page, `symbol` of the numbers, `value` to read a cell
 */
export function chartData<T>(items: readonly T[], columns: readonly DataColumnOf<T>[], note?: string): ChartData {
  return {
    columns: columns.map(({ name, label, symbol }) => ({ name, label, ...(symbol === undefined ? {} : { symbol }) })),
    rows: items.map((item, index) => columns.map((column) => column.value(item, index))),
    ...(note === undefined ? {} : { note }),
  };
}
