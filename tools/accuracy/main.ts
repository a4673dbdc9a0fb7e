import { accuracyLines } from "./sets.js";

// Digits that the statistics reach on the StRD sets, beside the ceiling: what exact arithmetic on the parsed doubles reaches.
const all = accuracyLines();
const widest = Math.max(...all.map((line) => line.set.length));
console.log(`${"set".padEnd(widest)}  ${"value".padEnd(26)} reached  ceiling   bar`);
for (const { set, value, reached, ceiling, bar, passes } of all) {
  const numbers = [reached, ceiling, bar].map((digits) => digits.toFixed(1).padStart(7)).join("  ");
  console.log(`${set.padEnd(widest)}  ${value.padEnd(24)} ${numbers}${passes ? "" : "  MISSED"}`);
}
const missed = all.filter((line) => !line.passes);
console.log(`${all.length - missed.length} of ${all.length} values reach the bar`);
process.exitCode = missed.length > 0 ? 1 : 0;
