import type { calibrationTerms } from "../../src/records/schemas/rig.js";

/** The texts between the lists of docs/formats.md. */
export const opening = `# The files of an archive

Written by tools/format-docs/main.ts from the schemas that \`benchfolio check\` holds the files against; a test compares, so do not
edit it by hand. The demo archive in \`data/\` shows every file filled in; [problems.md](problems.md) lists what is checked.

\`\`\`
lab.yaml                          the laboratory
methods/keystroke-2.yaml          one file a version of a method: keystroke@2
rigs/tester-1/rig.yaml            an instrument, with its calibrations
rigs/tester-1/checks.csv          its checks over time, where there are any
units/u01/unit.yaml               one keyboard
units/u01/s1/session.yaml         one session of measuring it, by one method
units/u01/s1/force.csv            keystroke: the raw rows
units/u01/s3/presses.csv          latency on film: frames of each press,
units/u01/s3/films.csv            its clips,
units/u01/s3/baseline.csv         and the system without the keyboard
units/u01/s4/timings.csv          latency by injection or light: the raw rows
studies/crossed-1/study.yaml      a designed study, where there is one
studies/crossed-1/readings.csv    and its readings
\`\`\`

Names of folders are ids: lower-case letters, digits and hyphens. An \`id\` says the same as the path. Files are UTF-8.

**Keys** that are marked *needed* must be there; the others may be left out. An unknown key is an error, so nothing is misspelt in
silence. A text that nobody knows is \`not recorded\`; a text that looks like a number needs quotes.

**Units of measure** stand in the names: \`press_speed_mm_per_s: 0.5\`, \`force_gf\`. Other units of measure of the same kind are
accepted where listed and converted exactly; one value is given in one of them only.

**Tables** are CSV with commas, points in numbers and a header. Every column must be there, in any order, and no other; cells that
*may be empty* are empty where nothing was recorded. An export of another shape becomes such a table by
[\`benchfolio receive\`](receive.md).

**Keys of a keyboard** are named by W3C UI Events codes: \`KeyF\`, \`Digit1\`, \`Space\`. They name places, not legends.`;

export const lab = "## lab.yaml";
export const unit = "## units/&lt;unit&gt;/unit.yaml";
export const session = `## units/&lt;unit&gt;/&lt;session&gt;/session.yaml

One session is one unit, one method, one rig and one setting. Measured anew, or otherwise, is another session.`;
export const force = `### force.csv

One row a reading, in the order recorded; the rows of one stroke stand together. A record is never changed after receipt: to take a
stroke out, write it under \`exclusions\`.`;
export const presses = `### presses.csv

One row a press and reader. A press that was missed keeps its row.`;
export const films =
  "### films.csv\n\nOne row a clip. The films stay outside the archive; `sha256sum` prints what says that they are the same.";
export const baseline = "### baseline.csv\n\nOne row a shot, before and after the presses.";
export const timings = "### timings.csv";
export const keystrokeMethod = `## methods/&lt;name&gt;-&lt;version&gt;.yaml

### kind: keystroke

Each number is used by the reduction as [methods.md](methods.md) says.`;
export const latencyMethod = "### kind: latency\n\nSee [methods-latency.md](methods-latency.md).";
export const scoringMethod = "### kind: scoring\n\nMeasures nothing: it turns results into merits by purpose.";
export const rig = "## rigs/&lt;rig&gt;/rig.yaml";
export const terms = `Each term gives a value and its *standard* uncertainty u (k = 1; a certificate's U divided by its k), and the shape of its
distribution, \`normal\` or \`rectangular\`. For a rectangular one of half-width a, u is a/√3.`;
export const checks = "### checks.csv\n\nOne row a check.";
export const study = "## studies/&lt;study&gt;/study.yaml";
export const readings = "### readings.csv\n\nFactors that the study does not vary may be empty.";
export const characteristics =
  "## Characteristics\n\nTheir definitions are in [methods.md](methods.md). Each with the unit of measure in which results give it:";

export const termMeanings: Readonly<Record<keyof typeof calibrationTerms, string>> = {
  force_span: "multiplies the force",
  force_zero: "added to the force",
  displacement_scale: "multiplies the displacement",
  displacement_zero: "added to the displacement; it cancels in every characteristic, since positions count from touch",
  compliance: "yielding of the tester: compliance times force is taken off the displacement",
  frame_clock: "multiplies times read from film or a timer",
  plunger_speed: "speed of the plunger over the pre-travel, under load",
  plunger_acceleration: "share of the travel time that its acceleration may change",
  detector_offset: "the baseline's detector against film",
  input_path: "the baseline device's path into the computer against the keyboard's",
};
