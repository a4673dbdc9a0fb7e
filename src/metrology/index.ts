/** `benchfolio/metrology`: quantities, their uncertainty and their evidence. */
export type { Evidence, EvidenceRows, EvidenceStep } from "./evidence.js";
export { evidenceLeaves, evidenceStep } from "./evidence.js";
export type { Component, Distribution, Source } from "./source.js";
export { boundedSource, divisorOf, normalSource, observedSource } from "./source.js";
export type { Measured } from "./quantity.js";
export { Absent, Count, Quantity, isQuantity } from "./quantity.js";
export type { DeriveOptions, Values } from "./derive.js";
export { covariance, derive, difference, linear, sum } from "./derive.js";
export type { Expanded } from "./expanded.js";
export { coverageFactor, effectiveDof, expand } from "./expanded.js";
export type { Budget, BudgetLine } from "./budget.js";
export { budgetOf } from "./budget.js";
export type { PrintOptions, Printed } from "./print.js";
export { printQuantity } from "./print.js";
export type { Verdict, VerdictFamily } from "./verdict.js";
export { verdictWord } from "./verdict.js";
