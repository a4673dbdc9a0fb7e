export type {
  Archive,
  ArchiveFile,
  Calibration,
  CalibrationTerm,
  CharacteristicName,
  ConnectionSettings,
  KeystrokeMethod,
  Lab,
  LatencyMethod,
  Limit,
  Method,
  MethodHead,
  Rig,
  RigCheck,
  ScoringMethod,
  Session,
  Stated,
  StrokeExclusion,
  Study,
  StudyReading,
  SwitchKind,
  Unit,
} from "./archive.js";
export { isFolder } from "./is-folder.js";
export { camelCase, characteristicNames, characteristicOf, characteristics } from "./characteristics.js";
export type { CharacteristicEntry } from "./characteristics.js";
export { checkArchive, sessionTables } from "./check-archive.js";
export type { ArchiveCheck } from "./check-archive.js";
export { isDate, isInstant } from "./dates.js";
export { isKeyCode, keyCodes } from "./key-codes.js";
export { nearestName } from "./nearest.js";
export { compareProblems, compareText, problemCodes } from "./problem.js";
export type { Place, Problem, ProblemCode } from "./problem.js";
export { problemCatalogue, problemMessage } from "./problem-wording.js";
export type { ProblemExplanation } from "./problem-wording.js";
export type { ReadRowsOptions } from "./problem-collector.js";
export { readArchive } from "./read-archive.js";
export type { ReadArchiveOptions } from "./read-archive.js";
export { readLatency } from "./read-latency.js";
export type { LatencyReading } from "./read-latency.js";
export { readStrokes } from "./read-strokes.js";
export type { StrokesReading } from "./read-strokes.js";
export type { BaselineShot, Film, LatencyReadings, PressReading, Stroke, Timing } from "./readings.js";
export { renderProblem } from "./render-problem.js";
export type { RenderProblemOptions } from "./render-problem.js";
export { readSourceLines } from "./source-lines.js";
export { checksSchema } from "./schemas/checks.js";
export { readingsSchema, studyFactors } from "./schemas/readings.js";
export type { TableField, TableSchema } from "./schemas/table-schema.js";
