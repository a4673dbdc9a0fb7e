import type { Wordings } from "./wording.js";

/** What descriptions say about each other. */
export const relationWordings = {
  E_ID_PATH: {
    explanation: "The id in a description differs from the name of its folder or file.",
    message: "the id is `{found}`, but the path says `{expected}`",
    hint: "make both the same; was the folder copied?",
  },
  E_METHOD_UNKNOWN: {
    explanation: "A method that methods/ does not hold.",
    message: "unknown method `{found}`",
    hint: "known methods: {expected}",
  },
  E_METHOD_KIND: {
    explanation: "A session names a method that measures nothing (scoring).",
    message: "`{found}` is a method of scoring; a session needs one that measures",
    hint: "name the keystroke or latency method by which the readings were taken",
  },
  E_METHOD_NUMBERS: {
    explanation: "Numbers of a method contradict each other.",
    message: "`{found}` contradicts {expected}",
    hint: "correct one of the two",
  },
  E_REPLACES_UNKNOWN: {
    explanation: "A method replaces one that methods/ does not hold.",
    message: "this method replaces `{found}`, which is not among the methods",
    hint: "known methods: {expected}",
  },
  E_REPLACES_CIRCULAR: {
    explanation: "Methods replace each other in a circle.",
    message: "the methods replace each other in a circle: {found}",
    hint: "let each version replace an earlier one; the first replaces none",
  },
  E_REPLACES_KIND: {
    explanation: "A method replaces one of another kind.",
    message: "`{found}` is of another kind; a {expected} method replaces a {expected} method",
    hint: "name the earlier version of the same method",
  },
  E_RIG_UNKNOWN: {
    explanation: "A rig that rigs/ does not hold.",
    message: "unknown rig `{found}`",
    hint: "known rigs: {expected}",
  },
  E_RIG_KIND: {
    explanation: "A session's rig cannot take the readings its method asks for.",
    message: "the rig is {found}; the method needs {expected}",
    hint: "check the session's `rig` and `method`",
  },
  E_UNIT_UNKNOWN: {
    explanation: "A unit that units/ does not hold.",
    message: "unknown unit `{found}`",
    hint: "known units: {expected}",
  },
  E_ROLE_UNKNOWN: {
    explanation: "An operator or reader that lab.yaml does not list among the roles.",
    message: "unknown role `{found}`",
    hint: "add it to `roles` in lab.yaml (a role, never a person's name), or use one of {expected}",
  },
  E_CONNECTION_UNKNOWN: {
    explanation: "A connection that unit.yaml does not list.",
    message: "the unit has no connection `{found}`",
    hint: "its connections: {expected}",
  },
  E_LIMIT_EMPTY: {
    explanation: "A limit that states neither min, max nor nominal.",
    message: "the limit on {found} states no number",
    hint: "give at least one of {expected}",
  },
  E_LIMIT_ORDER: {
    explanation: "A limit's min, nominal and max are not in ascending order.",
    message: "{found} is not in ascending order",
    hint: "check which is which, and their units of measure",
  },
  E_CURVE_ORDER: {
    explanation: "The points of a merit curve do not ascend.",
    message: "the points of this curve do not ascend: {found}",
    hint: "order the points by value, each value once",
  },
  E_GRADES_ORDER: {
    explanation: "Grades are not listed from the best down to one that starts at 0.",
    message: "the grades start at {found}; they must descend and end at 0",
    hint: "list the best grade first; the last starts at 0, so that every merit has a grade",
  },
  E_WEIGHT_NO_CURVE: {
    explanation: "A purpose weighs a characteristic that has no merit curve.",
    message: "`{found}` is weighed but has no curve",
    hint: "curves are given for: {expected}",
  },
  E_DATE_ORDER: {
    explanation: "A later date stands before an earlier one.",
    message: "{found} lies before {expected}",
    hint: "correct one of the two",
  },
  E_SESSION_BEFORE_RECEIVED: {
    explanation: "A session started before the unit was received.",
    message: "the session starts on {found}, before the unit was received ({expected})",
    hint: "correct `start` here or `received` in unit.yaml",
  },
  W_METHOD_BEFORE_SINCE: {
    explanation: "A session started before its method came into use.",
    message: "the session starts on {found}; its method is in use since {expected}",
    hint: "check the method's version and its `since`",
  },
  W_CALIBRATION_EXPIRED: {
    explanation: "The rig's calibration had expired when the session started; its results say so.",
    message: "the calibration of {expected} had expired on {found}",
    hint: "add the newer calibration to rig.yaml, or measure again after it",
  },
  W_CALIBRATION_NOT_YET: {
    explanation: "The rig had no calibration yet when the session started; its results say so.",
    message: "{expected} had no calibration on {found}",
    hint: "add the calibration that was in force to rig.yaml",
  },
  W_PRESS_SPEED_UNSTATED: {
    explanation: "A session of key force or filmed presses does not state its press speed.",
    message: "the press speed is not stated; the method asks for {expected}",
    hint: "add `press_speed_mm_per_s`: force depends on speed, and so does travel time",
  },
  W_PRESS_SPEED_DIFFERS: {
    explanation: "A session's press speed differs from its method's by more than 1 %.",
    message: "the press speed is {found}; the method asks for {expected}",
    hint: "state it among the deviations; results at different speeds are not pooled",
  },
  W_CONNECTION_SETTINGS_ABSENT: {
    explanation: "A connection was measured, but session.yaml does not state its settings.",
    message: "no settings are stated for the connection `{found}`",
    hint: "add it under `connections` in session.yaml; `not recorded` is a value",
  },
} satisfies Wordings;
