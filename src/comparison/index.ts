/** `benchfolio/comparison`: two methods or two sets of results; groups, ranks and merits. */
export type { AlikeGroups } from "./alike-groups.js";
export { alikeGroups } from "./alike-groups.js";
export type { ChangeInputs, ChangeSteps } from "./change-steps.js";
export { changeSteps } from "./change-steps.js";
export type { DifferenceTest } from "./difference-test.js";
export { equivalencePValue, testDifference, zeroPValue } from "./difference-test.js";
export type { JudgedLimit, LimitOptions, LimitVerdicts } from "./limit-verdicts.js";
export { limitVerdicts } from "./limit-verdicts.js";
export type { Merit, MeritInputs, Merits } from "./merit.js";
export { meritCurve, meritsFor } from "./merit.js";
export type { Movement } from "./movement.js";
export { movements } from "./movement.js";
export type { Rank, RankOptions, Ranking } from "./ranks.js";
export { rankBy } from "./ranks.js";
