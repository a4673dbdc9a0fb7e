import type { Wordings } from "./wording.js";

/** presses.csv, films.csv, baseline.csv, timings.csv, and studies. */
export const latencyWordings = {
  E_EXCLUDED_NO_REASON: {
    explanation: "The `excluded` cell holds a yes or no in place of a reason.",
    message: "`{found}` is no reason for taking a reading out",
    hint: "leave the cell empty to keep the reading, or write why it is out",
  },
  E_FRAME_ABSENT: {
    explanation: "A press with outcome `ok` lacks its contact or response frame.",
    message: "the outcome is `ok`, but `{expected}` is empty",
    hint: "read the frame, or set the outcome to `missed` or `unreadable`",
  },
  E_RESPONSE_BEFORE_CONTACT: {
    explanation: "The response comes before the contact (or the arrival before the start).",
    message: "the response at {found} comes before the contact at {expected}",
    hint: "are the two columns exchanged, or does the clip restart its count?",
  },
  E_MARK_BEFORE_CONTACT: {
    explanation: "The plunger's mark passes before the contact.",
    message: "the mark at frame {found} passes before the contact at frame {expected}",
    hint: "read both frames again",
  },
  W_OUTCOME_FRAMES: {
    explanation: "A press with outcome `missed` has a response frame.",
    message: "the outcome is `{expected}`, yet a response is read at frame {found}",
    hint: "correct the outcome, or clear the frame",
  },
  E_PRESS_DUPLICATE: {
    explanation: "One press of one connection is given twice by one reader.",
    message: "{found} stands here a second time; the first is on line {expected}",
    hint: "number the presses of a connection through; several readers need different names",
  },
  W_PRESS_READERS_DIFFER: {
    explanation: "Two readers of one press name different keys or clips.",
    message: "{found} here, {expected} in another reader's row of the same press",
    hint: "are both reading the same press?",
  },
  W_PRESSES_FEWER: {
    explanation: "A connection has fewer presses than the method asks for.",
    message: "{found}; the method asks for {expected}",
    hint: "film the missing presses, or state among the deviations why not",
  },
  W_PRESSES_BELOW_MINIMUM: {
    explanation: "A connection has fewer valid presses than the method's minimum: it has no result.",
    message: "{found}; the method's minimum is {expected}",
    hint: "press again: below the minimum no latency is given",
  },
  W_CONNECTION_NO_PRESSES: {
    explanation: "session.yaml states settings for a connection that no row measures.",
    message: "no row measures the connection `{found}`",
    hint: "remove its settings, or add its readings",
  },
  E_CLIP_UNKNOWN: {
    explanation: "A press names a clip that films.csv does not list.",
    message: "unknown clip `{found}`",
    hint: "clips in films.csv: {expected}",
  },
  E_PRESS_OUTSIDE_CLIP: {
    explanation: "A press lies outside the range of presses that films.csv gives for its clip.",
    message: "press {found} is not on this clip; films.csv gives it presses {expected}",
    hint: "correct the clip, the press number, or the range in films.csv",
  },
  E_FILM_DUPLICATE: {
    explanation: "films.csv lists one clip twice.",
    message: "the clip `{found}` is listed a second time; the first is on line {expected}",
    hint: "give every clip its own name",
  },
  E_FILM_RANGE: {
    explanation: "A clip's last press comes before its first.",
    message: "the last press, {found}, comes before the first, {expected}",
    hint: "exchange the two, or correct them",
  },
  W_FRAME_RATE_DIFFERS: {
    explanation: "A clip's frame rate differs from the method's by more than 1 %.",
    message: "the clip has {found}; the method asks for {expected}",
    hint: "check the camera's setting; the clip's own rate is used",
  },
  E_BASELINE_DUPLICATE: {
    explanation: "One shot of one baseline block is given twice.",
    message: "{found} stands here a second time; the first is on line {expected}",
    hint: "number the shots of a block through",
  },
  E_BASELINE_EMPTY_SHOT: {
    explanation: "A shot of the baseline has no part at all.",
    message: "this shot states none of {expected}",
    hint: "fill what was measured, or remove the shot",
  },
  E_BASELINE_PART_ABSENT: {
    explanation: "A part that the method subtracts was never measured.",
    message: "the method subtracts `{expected}`, which no shot states",
    hint: "measure the part: without it the latency cannot be given",
  },
  W_BASELINE_BLOCK_ABSENT: {
    explanation: "The baseline lacks the block before or after the presses: its drift cannot be judged.",
    message: "there is no baseline block `{expected}`",
    hint: "shoot the baseline before and after the presses",
  },
  W_BASELINE_SHOTS_FEWER: {
    explanation: "A baseline block has fewer shots than the method asks for.",
    message: "{found}; the method asks for {expected}",
    hint: "shoot the missing ones, or state among the deviations why not",
  },
  E_FACTOR_EMPTY: {
    explanation: "A study's reading leaves a factor of the study empty.",
    message: "`{expected}` is a factor of this study and is empty here",
    hint: "say which {expected} this reading belongs to",
  },
  W_FACTOR_CONSTANT: {
    explanation: "A factor of a study never varies.",
    message: "the factor `{found}` has a single level: {expected}",
    hint: "remove it from `factors`, or add readings at another level",
  },
  W_READING_DUPLICATE: {
    explanation: "Two readings of a study agree in every factor and in the repeat.",
    message: "this reading has the same factors and repeat as line {expected}",
    hint: "number the repeats, so that each reading is told apart",
  },
} satisfies Wordings;
