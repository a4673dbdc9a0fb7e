import ts from "typescript";

/** What a type says of quantities. */
export interface QuantityTraits {
  readonly quantity: boolean;
  readonly absent: boolean;
  readonly count: boolean;
  readonly missing: boolean;
  /** Anything else is among its members. */
  readonly other: boolean;
  /** Units of measure; empty where any is possible. */
  readonly symbols: readonly string[];
}

/** Takes a type's members apart by whether they are quantities, absences, counts, undefined or something else. */
export function quantityTraits(checker: ts.TypeChecker, type: ts.Type): QuantityTraits {
  let [quantity, absent, count, missing, other] = [false, false, false, false, false];
  const symbols = new Set<string>();
  for (const member of type.isUnion() ? type.types : [type]) {
    const name = member.symbol?.name ?? "";
    const ours = member.symbol?.declarations?.some((d) => /metrology\/quantity\.(d\.)?ts$/.test(d.getSourceFile().fileName));
    if (member.flags & (ts.TypeFlags.Undefined | ts.TypeFlags.Null | ts.TypeFlags.Void)) missing = true;
    else if (ours && (name === "Quantity" || name === "Absent")) {
      if (name === "Quantity") quantity = true;
      else absent = true;
      const [symbol] = checker.getTypeArguments(member as ts.TypeReference);
      for (const each of symbol?.isUnion() ? symbol.types : symbol ? [symbol] : []) {
        if (each.isStringLiteral()) symbols.add(each.value);
      }
    } else if (ours && name === "Count") count = true;
    else other = true;
  }
  return { quantity, absent, count, missing, other, symbols: [...symbols] };
}

/** A type in the words of these templates. */
export function describeType(checker: ts.TypeChecker, type: ts.Type): string {
  const { flags } = type;
  if (flags & ts.TypeFlags.NumberLike) return "a bare number";
  if (type.isStringLiteral()) return `the text "${type.value}"`;
  if (flags & ts.TypeFlags.StringLike) return "a text";
  if (flags & ts.TypeFlags.BooleanLike) return "true or false";
  if (flags & (ts.TypeFlags.Undefined | ts.TypeFlags.Void)) return "nothing";
  if (flags & ts.TypeFlags.Null) return "null";
  if (flags & ts.TypeFlags.Unknown) return "something unknown";
  const traits = quantityTraits(checker, type);
  if (!traits.other && !traits.missing && (traits.quantity || traits.absent)) {
    const unit = traits.symbols.length === 1 ? ` in ${traits.symbols[0]}` : "";
    if (!traits.absent) return `a quantity${unit}`;
    return traits.quantity ? `a quantity${unit} that may be absent` : "an absent quantity";
  }
  if (!traits.other && !traits.missing && traits.count) return "a count";
  if (type.isUnion() && type.types.length <= 4) {
    const members = [...new Set(type.types.map((each) => describeType(checker, each)))];
    return members.sort((a, b) => Number(a === "nothing") - Number(b === "nothing")).join(" or ");
  }
  if (checker.isArrayType(type) || checker.isTupleType(type)) return "a list";
  if (type.getCallSignatures().length > 0) return "a function";
  const name = type.symbol?.name;
  const known: Readonly<Record<string, string>> = { Chart: "a chart", Table: "a table", Verdict: "a verdict" };
  if (name !== undefined && known[name] !== undefined) return known[name];
  if (name === undefined || name.startsWith("__")) return "an object of its own making";
  return `a value of the type ${name}`;
}
