/** `benchfolio/keystroke`: force-displacement curves to the characteristics of keys. */
export type {
  CurveFlag,
  CycleReduction,
  DrawnCurve,
  KeyCharacteristic,
  KeyCharacteristics,
  KeyReduction,
  KeystrokeReduction,
} from "./model.js";
export { characteristicNames, characteristicSymbols } from "./characteristics.js";
export { keystrokes, reduceKeystroke } from "./reduce-keystroke.js";
export type { ReductionContext } from "./reduction-context.js";
export { calibrationInForce, reductionContext } from "./reduction-context.js";
export type { RowRange, StreamCycle, StreamSplit } from "./split-stream.js";
export { splitStream } from "./split-stream.js";
export type { UnitMean, UnitMeanOptions } from "./unit-mean.js";
export { unitMean } from "./unit-mean.js";
export type { KeyPlace } from "./key-place.js";
export { keyPlace } from "./key-place.js";
