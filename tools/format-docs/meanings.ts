/** What each key of a description means, by file and path; a path of the schema without a meaning, or the reverse, throws. */
export type Meanings = Readonly<Record<string, string>>;

const limitMeanings = (at: string): Meanings => ({
  [at]: "limits that results are judged against",
  [`${at}[].characteristic`]: "what it speaks of; the list of characteristics is below",
  [`${at}[].binds`]: "whom it binds: every key of the unit, or the unit's mean",
  [`${at}[].force`]: "`limit` is judged; `typical` is shown and never judged",
  [`${at}[].source`]: "data sheet and revision, or standard and clause",
  [`${at}[].switch_kinds`]: "kinds of key that it speaks of; left out: all",
  [`${at}[].press_speed`]: "speed for which the source states it",
  [`${at}[].min`]: "lower end, in the characteristic's unit of measure; at least one of min, nominal and max",
  [`${at}[].nominal`]: "value aimed at",
  [`${at}[].max`]: "upper end",
});

const methodHead: Meanings = {
  id: "name and version; the file is named `name-version.yaml`, so `keystroke@2` stands in `keystroke-2.yaml`",
  kind: "what it measures; the other keys depend on it",
  title: "what it is, in one line",
  replaces: "the version that this one replaces, which must be in `methods/` too; leave it out where none is",
  since: "day from which the lab uses it",
  notes: "what readers of a dossier must know of the method",
};

export const labMeanings: Meanings = {
  name: "the laboratory",
  address: "where the work is done",
  contact: "how it is reached",
  customer: "whom the dossiers are made for",
  roles:
    "who measures, reads film and approves, as id and wording: `operator-1: Test operator 1`. Roles, never persons",
  statements:
    "texts that every dossier carries, such as `items_tested`, `reproduction`, `limits_of_use`, `safety`; names in snake_case",
  smallest_change: "the smallest change that matters, by characteristic; below it two results count as equal",
  effort: "minutes of work, from which the plan of retests counts hours",
  numbering: "`draft` is what stands in place of a number before issue, `prefix` what a number starts with",
  ...limitMeanings("limits"),
};

export const keystrokeMeanings: Meanings = {
  ...methodHead,
  keys: "key codes, in the order measured",
  min_keys: "under so many usable keys a unit has no mean",
  conditioning_strokes: "strokes before the first recorded cycle, not recorded",
  cycles: "recorded cycles of each key; a cycle is a press and its release",
  cycles_used: "numbers of the cycles whose mean is the key's value",
  touch_deviations: "touch is where the force exceeds the noise of the approach by so many standard deviations",
  touch_force: "and at least this force",
  press_speed: "of the probe",
  smoothing_window: "width of the local fits, along the displacement",
  prominence: "a peak of force counts from this prominence",
  bottom_out_slope: "bottom-out is where the slope first exceeds this and stays above",
};

export const latencyMeanings: Meanings = {
  ...methodHead,
  observes: "film of plunger and screen, direct injection at the contact, or a light that reports the arrival",
  presses: "presses of each connection",
  kept: "how many of the fastest are kept for the published figure; equal to `presses` where all are",
  min_presses: "under so many valid presses a connection has no result",
  subtract: "parts of the baseline that are subtracted; `[]` for none",
  subtract_travel: "whether the time from touch to contact is subtracted; it needs a keystroke session of the unit",
  baseline_shots: "shots of each block of the baseline; 0 for none",
  compares: "comparisons use the mean of all presses, or of those kept",
  frame_rate: "of the camera",
};

export const scoringMeanings: Meanings = {
  ...methodHead,
  missing_connection: "what becomes of the weight of a connection that a unit lacks",
  curves: "by characteristic: points `[value, merit]`, merit from 0 to 1, straight between and flat beyond them",
  purposes: "by purpose, a name in snake_case: the weight of each characteristic",
  grades: "named steps, best first; the last starts at 0",
  "grades[].name": "wording of the grade",
  "grades[].from": "the lowest merit that earns it",
  picks: "how many units a purpose recommends",
};

export const rigMeanings: Meanings = {
  id: "name of the folder",
  kind: "what kind of instrument",
  description: "type, load cell, probe",
  software: "name and version",
  calibrations: "each in force from its date; `[]` for none",
  "calibrations[].date": "day from which it holds",
  "calibrations[].due": "day on which it expires",
  "calibrations[].certificate": "number of the certificate",
  "calibrations[].terms":
    "corrections and their uncertainty, each as `{ value_…, u_…, distribution }`; the list is below",
};

export const unitMeanings: Meanings = {
  id: "name of the folder",
  maker: "as printed on it",
  model: "as printed on it",
  sample_no: 'which of several samples; in quotes, such as `"1"`',
  received: "day on which the lab received it, or `not recorded`",
  obtained: "how the lab came by it",
  condition: "state on receipt",
  status: "whether the lab still has it: only a unit that is held can be measured again",
  status_note:
    "anything to add to that; where it names a time between two sessions, as of a repair, no effect of a method is taken from them",
  layout: "physical layout",
  alphabetic_keys: "how many it has: the keys that its mean speaks of, also those that were not measured",
  switch: "the keys' mechanism",
  "switch.kind": "as the data sheet says; the curves are held against it",
  "switch.name": "type",
  "switch.travel": "full height or low profile",
  "switch.actuation_setting": "setting of an adjustable actuation point, else `not adjustable`",
  connections: "ids of the ways it can be connected, such as `[ usb, receiver, bluetooth ]`",
  ...limitMeanings("limits"),
};

export const sessionMeanings: Meanings = {
  id: "name of the folder",
  unit: "the unit, which is the folder above",
  method: "the method by which it was measured; one method a session",
  rig: "the instrument",
  operator: "a role of lab.yaml",
  start: "when it began, with the offset from UTC",
  end: "when it ended",
  contact_source:
    "what closed in the column `contact`: the electrical contact, or the keyboard's report, which comes later. Left out: `none`",
  connections: "latency: settings of each connection that was measured",
  "connections.*.polling_set": "polling rate as set",
  "connections.*.polling_measured": "polling rate as measured",
  "connections.*.debounce": "debounce time as set, else `not adjustable`",
  "connections.*.adapter": "anything between keyboard and computer, else `none`",
  firmware: 'of the keyboard; in quotes, such as `"1.10"`',
  driver: "of the keyboard",
  software: "of the rig or the response window",
  environment: "conditions of the room",
  "environment.temperature": "of the air",
  "environment.humidity": "relative",
  deviations: "departures from the method, one sentence each; they stand in the dossier",
  exclusions: "strokes taken out by hand; their rows stay in the file and are named on the page",
  "exclusions[].key": "key code",
  "exclusions[].cycle": "number of the cycle",
  "exclusions[].reason": "why",
  press_speed: "of the tester's probe, or the plunger's nominal speed",
  refresh_rate: "of the display",
  press_interval: "time between presses",
  press_interval_jitter: "standard deviation of that time",
};

export const studyMeanings: Meanings = {
  id: "name of the folder",
  title: "what it is, in one line",
  kind: "`crossed`: factors varied on purpose; `readers`: several readers of one film; `candidate_methods`: methods side by side",
  question: "what it is to answer",
  factors: "columns of readings.csv that vary",
};
