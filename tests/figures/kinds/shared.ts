import { evidenceStep } from "../../../src/metrology/evidence.js";
import { Absent, Quantity } from "../../../src/metrology/quantity.js";
import { normalSource } from "../../../src/metrology/source.js";

/** A quantity whose expanded uncertainty is U (k = 1.96), from a source of its own. */
export function q<S extends string = "cN">(
  value: number,
  U: number,
  symbol: S = "cN" as S,
  id = `${value}/${U}/${symbol}`,
): Quantity<S> {
  const u = U / 1.959963984540054;
  return new Quantity(
    value,
    symbol,
    u === 0 ? [] : [{ source: normalSource(id, id, u, symbol), contribution: u }],
    evidenceStep("test", []),
  );
}

/** An absence with a reason. */
export function none<S extends string = "cN">(reason: string, symbol: S = "cN" as S): Absent<S> {
  return new Absent(symbol, reason);
}

/** The finding with plain spaces, to compare. */
export function plain(text: string): string {
  return text.replaceAll("\u00a0", " ").replaceAll("\u2212", "-");
}
