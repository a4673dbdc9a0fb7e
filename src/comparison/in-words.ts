/** "a", "a and b", "a, b and c". */
export function listed(words: readonly string[]): string {
  const last = words.at(-1) ?? "";
  return words.length < 2 ? last : `${words.slice(0, -1).join(", ")} and ${last}`;
}

/** "one unit", "3 units", "no unit". */
export function counted(count: number, noun: string): string {
  return count === 0 ? `no ${noun}` : count === 1 ? `one ${noun}` : `${count} ${noun}s`;
}

/** Sentences one after another; empty ones are left out. */
export function sentences(...parts: readonly string[]): string {
  return parts.filter((part) => part !== "").join(" ");
}
