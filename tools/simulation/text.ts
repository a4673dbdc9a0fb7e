import { Document, isMap, isScalar, isSeq, visit } from "yaml";
import type { Raw } from "./described.js";

/** Longest flow collection that stays on one line. */
const longestFlow = 118;

/** A description as YAML: keys in their order, small inner collections on one line. */
export function renderYaml(raw: Raw): string {
  const document = new Document(raw, { aliasDuplicateObjects: false });
  visit(document, {
    Collection(_, node, path) {
      if (path.length <= 1) return;
      const brief = (item: unknown): boolean => isScalar(item) && String(item.value).length <= 16;
      const flat = isSeq(node)
        ? node.items.every((item) => brief(item) || (isSeq(item) && item.items.every(brief)))
        : isMap(node) && node.items.every((pair) => isScalar(pair.value) || isSeq(pair.value));
      if (flat && JSON.stringify(node.toJSON()).length <= longestFlow) node.flow = true;
    },
  });
  return document.toString({ lineWidth: 0, flowCollectionPadding: true });
}

/** A number with at most so many decimals, without trailing zeros; never "-0". */
export function shortNumber(value: number, decimals: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`cannot write ${value} into a file`);
  const text = Number(value.toFixed(decimals)).toString();
  return text === "-0" ? "0" : text;
}

/** One CSV field: quoted only where it must be. */
function field(value: string | number | null): string {
  if (value === null) return "";
  const text = String(value);
  return /[",\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** Rows under a header line, lines ended by a single line feed. */
export function renderCsv(header: string, rows: readonly (readonly (string | number | null)[])[]): string {
  return [header, ...rows.map((row) => row.map(field).join(","))].join("\n") + "\n";
}
