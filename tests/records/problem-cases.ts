import { createHash } from "node:crypto";
import type { ProblemCode } from "../../src/records/index.js";
import type { Override } from "./make-archive.js";
import { forceTable, replacing, strokeRows, validArchive } from "./make-archive.js";

/** One thing wrong with the valid archive, and everything that checking it must say: code and place, nothing else. */
export interface ProblemCase {
  readonly title: string;
  readonly files: Readonly<Record<string, Override>>;
  readonly problems: readonly `${ProblemCode} ${string}`[];
  /** Parts of the printed problem, in order. */
  readonly says?: readonly string[];
}

const session = "units/u01/s1/session.yaml";
const force = "units/u01/s1/force.csv";
const film = "units/u01/s2/session.yaml";
const presses = "units/u01/s2/presses.csv";
const films = "units/u01/s2/films.csv";
const baseline = "units/u01/s2/baseline.csv";
const method = "methods/keystroke-2.yaml";
const latency = "methods/latency-1.yaml";
const scoring = "methods/scoring-1.yaml";
const rig = "rigs/tester-1/rig.yaml";
const checks = "rigs/tester-1/checks.csv";
const unit = "units/u01/unit.yaml";
const readings = "studies/crossed-1/readings.csv";

/** A change of one column of force.csv in all its rows. */
const mapForce =
  (column: number, change: (cell: string, row: number) => string) =>
  (text: string): string =>
    text
      .trimEnd()
      .split("\n")
      .map((line, i) => {
        if (i === 0) return line;
        const cells = line.split(",");
        cells[column] = change(cells[column]!, i);
        return cells.join(",");
      })
      .join("\n") + "\n";

const scaleForce = (factor: number): Override => mapForce(4, (cell) => String(Number(cell) * factor));

/** The archive with a method of injection and its session, in place of film. */
const injection = (rows: string): Readonly<Record<string, Override>> => ({
  [latency]: (text) =>
    text.replace("observes: film", "observes: injection").replace("subtract: [pc, display]", "subtract: []"),
  "rigs/camera-1/rig.yaml": replacing("camera_plunger", "injector"),
  [presses]: null,
  [films]: null,
  [baseline]: null,
  "units/u01/s2/timings.csv": `connection,press,start_us,arrival_us,excluded\n${rows}`,
});

const inReceived = "units/u01/s1/received";
const digestOf = (text: string): string =>
  `sha256: ${createHash("sha256").update(text).digest("hex")}, bytes: ${Buffer.byteLength(text)}`;

/** The keystroke session as received from one export, with the note of its receipt. */
const receivedFiles: Readonly<Record<string, string>> = {
  [`${inReceived}/run 7.txt`]: "raw\n",
  [`${inReceived}/columns.yaml`]: "kind: force\n",
  [`${inReceived}/received.yaml`]: `table: { file: force.csv, ${digestOf(validArchive()[force]!)}, rows: 328 }
columns: { file: columns.yaml, ${digestOf("kind: force\n")} }
received_by: a test
files:
  - { file: run 7.txt, given_as: a/run 7.txt, ${digestOf("raw\n")}, lines: 1, left_out: [{ lines: "1", reason: a head }] }
`,
};
const receipt = `${inReceived}/received.yaml`;

const receivedCases: readonly ProblemCase[] = [
  { title: "files that are as the note of their receipt says are no problem", files: receivedFiles, problems: [] },
  {
    title: "a received file that changed is an error at its sha256 in the note",
    files: { ...receivedFiles, [`${inReceived}/run 7.txt`]: "rav\n" },
    problems: [`E_RECEIVED_CHANGED ${receipt}:5:55`],
    says: ["run 7.txt holds 4 bytes with the sha256 ", "; received were 4 bytes with ", "hint: restore the file"],
  },
  {
    title: "a note that gives another size than its file has is an error at the size",
    files: { ...receivedFiles, [receipt]: receivedFiles[receipt]!.replace("bytes: 4,", "bytes: 5,") },
    problems: [`E_RECEIVED_CHANGED ${receipt}:5:128`],
  },
  {
    title: "a received file that is gone is an error where the note names it",
    files: { ...receivedFiles, [`${inReceived}/run 7.txt`]: null },
    problems: [`E_RECEIVED_MISSING ${receipt}:5:13`],
    says: ["units/u01/s1/received/run 7.txt is missing"],
  },
  {
    title: "a changed columns file is an error too",
    files: { ...receivedFiles, [`${inReceived}/columns.yaml`]: "kind: presses\n" },
    problems: [`E_RECEIVED_CHANGED ${receipt}:2:40`],
  },
  {
    title: "a table that changed after its receipt is an error",
    files: { ...receivedFiles, [force]: (text) => text.replace("0.100,", "0.101,") },
    problems: [`E_RECEIVED_CHANGED ${receipt}:1:35`],
    says: ["units/u01/s1/force.csv holds"],
  },
  {
    title: "files in received/ without a note are warned of",
    files: { [`${inReceived}/run 7.txt`]: "raw\n" },
    problems: [`W_RECEIPT_ABSENT ${inReceived}/run 7.txt:1:1`],
  },
  {
    title: "a file in received/ that the note does not name is warned of",
    files: { ...receivedFiles, [`${inReceived}/run 8.txt`]: "raw\n" },
    problems: [`W_RECEIVED_UNLISTED ${inReceived}/run 8.txt:1:1`],
  },
  {
    title: "a note cannot name a file of another folder",
    files: { ...receivedFiles, [receipt]: receivedFiles[receipt]!.replace("file: run 7.txt", "file: ../run 7.txt") },
    problems: [`E_TEXT_FORM ${receipt}:5:13`],
    says: ["the name of a file, without its folder"],
  },
];

const fileCases: readonly ProblemCase[] = [
  {
    title: "a missing description is named",
    files: { "lab.yaml": null },
    problems: ["E_FILE_MISSING lab.yaml:1:1"],
    says: ["lab.yaml is missing", "give the folder that holds lab.yaml"],
  },
  {
    title: "a raw file that the method needs is asked for where the method is named",
    files: { [force]: null },
    problems: [`E_FILE_MISSING ${session}:3:9`],
    says: ["add it, with the header key,cycle,stroke,displacement_mm,force_cN,contact"],
  },
  {
    title: "a unit's folder that stands outside units/ is told where it belongs",
    files: { "u02/unit.yaml": "id: u02\n" },
    problems: ["W_FOLDER_UNKNOWN u02:1:1"],
    says: ["it holds a unit.yaml: move it to units/u02"],
  },
  {
    title: "a column of the frame rate may write its unit of measure as everywhere else",
    files: { [films]: replacing("frame_rate_hz", "frame_rate_Hz") },
    problems: [],
  },
  {
    title: "an archive without units is warned of",
    files: {
      ...Object.fromEntries(
        Object.keys(validArchive())
          .filter((p) => /^(units|studies)/.test(p))
          .map((p) => [p, null]),
      ),
      [checks]: null,
    },
    problems: ["W_ARCHIVE_EMPTY units:1:1"],
  },
  { title: "an empty file is an error", files: { [force]: "" }, problems: [`E_FILE_EMPTY ${force}:1:1`] },
  {
    title: "a description of comments only is empty",
    files: { "lab.yaml": "# to be written\n" },
    problems: ["E_FILE_EMPTY lab.yaml:1:1"],
  },
  {
    title: "a description of more than a megabyte is not read",
    files: { "lab.yaml": (text) => text + `# ${"x".repeat(1_000_000)}\n` },
    problems: ["E_FILE_HUGE lab.yaml:1:1"],
    says: ["1000639 bytes; at most 1000000 bytes"],
  },
  {
    title: "a workbook in place of text is refused",
    files: { [force]: Buffer.from("PK\u0003\u0004\u0000\u0000\u0000data", "latin1") },
    problems: [`E_FILE_BINARY ${force}:1:1`],
    says: ["byte 5 is zero"],
  },
  {
    title: "UTF-16 is told apart from other binary",
    files: { [force]: Buffer.from("\ufeffkey,cycle", "utf16le") },
    problems: [`E_FILE_UTF16 ${force}:1:1`],
  },
  {
    title: "a byte that is not UTF-8 is found at its line and column",
    files: {
      [session]: Buffer.from(validArchive()[session]!.replace("The probe slipped", "La sonde a gliss\u00e9"), "latin1"),
    },
    problems: [`E_UTF8_INVALID ${session}:14:61`],
    says: ["byte 0xe9"],
  },
  {
    title: "a byte order mark is read past and warned of",
    files: { [force]: (text) => `\ufeff${text}` },
    problems: [`W_BOM ${force}:1:1`],
  },
  {
    title: "mixed line ends are warned of once, at the first that differs",
    files: { [force]: (text) => text.replace("\n", "\r\n").replaceAll(",0.500,", ",0.500,") },
    problems: [`W_LINE_ENDS_MIXED ${force}:2:24`],
    says: ["ends with LF; the first one ends with CRLF"],
  },
  {
    title: "an unknown file is warned of, with the near name",
    files: { "units/u01/s1/forces.csv": "x\n" },
    problems: ["W_FILE_UNKNOWN units/u01/s1/forces.csv:1:1"],
    says: ["did you mean `force.csv`?"],
  },
  {
    title: "a method file that names no version is warned of",
    files: { "methods/keystroke.yaml": "id: x\n" },
    problems: ["W_FILE_UNKNOWN methods/keystroke.yaml:1:1"],
  },
  {
    title: "an unknown folder is warned of and not entered",
    files: { "unit/u02/unit.yaml": "nonsense" },
    problems: ["W_FOLDER_UNKNOWN unit:1:1"],
    says: ["did you mean `units`?"],
  },
  {
    title: "a raw file of another kind of method is warned of",
    files: { "units/u01/s1/films.csv": validArchive()[films]! },
    problems: ["W_FILE_UNEXPECTED units/u01/s1/films.csv:1:1"],
  },
  {
    title: "a folder whose name cannot be an id is an error",
    files: { "units/U 02/unit.yaml": "x" },
    problems: ["E_FOLDER_NAME units/U 02:1:1"],
    says: ["did you mean `u-02`?"],
  },
];

const yamlCases: readonly ProblemCase[] = [
  {
    title: "a bracket, brace or quote that is never closed is reported at its opening",
    files: {
      [unit]: replacing("[usb, receiver]", "[usb, receiver"),
      [session]: replacing('"1.4"', '"1.4'),
      "lab.yaml": replacing("prefix: TH }", "prefix: TH"),
    },
    problems: ["E_YAML_UNCLOSED lab.yaml:26:12", `E_YAML_UNCLOSED ${session}:10:11`, `E_YAML_UNCLOSED ${unit}:15:14`],
    says: ["this `{` is never closed", "close it with `}`"],
  },
  {
    title: "a text that holds a colon is a syntax error, reported once",
    files: { [unit]: replacing("maker: Fennick Works", "maker: Fennick: Works") },
    problems: [`E_YAML_SYNTAX ${unit}:2:8`],
    says: ["a text that holds a colon needs quotes"],
  },
  {
    title: "a tab as indentation is named",
    files: { [session]: replacing('firmware: "1.4"', 'firmware:\n\tversion: "1.4"') },
    problems: [`E_YAML_TAB ${session}:11:1`],
  },
  {
    title: "anchors and aliases are refused where they stand",
    files: { [unit]: (text) => text.replace("maker: Fennick", "maker: &m Fennick").replace("Plover 4", "*m") },
    problems: [`E_YAML_ALIAS ${unit}:2:8`, `E_YAML_ALIAS ${unit}:3:8`],
  },
  {
    title: "tags are refused",
    files: { [unit]: replacing("maker: Fennick Works", "maker: !!str Fennick Works") },
    problems: [`E_YAML_TAG ${unit}:2:8`],
  },
  {
    title: "a key that is not text is refused",
    files: { "lab.yaml": replacing("roles:", "roles:\n  1: Somebody") },
    problems: ["E_YAML_KEY lab.yaml:6:3"],
  },
  {
    title: "a key that stands twice names the first line",
    files: { [session]: replacing('firmware: "1.4"', 'firmware: "1.4"\nrig: tester-1') },
    problems: [`E_YAML_DUPLICATE_KEY ${session}:11:1`],
    says: ["`rig` stands here a second time; the first is on line 4"],
  },
  {
    title: "a second document in one file is refused",
    files: { "lab.yaml": (text) => `${text}---\nname: other\n` },
    problems: ["E_YAML_DOCUMENTS lab.yaml:27:1"],
  },
  {
    title: "a directive that would change what values mean is refused",
    files: { "lab.yaml": (text) => `%YAML 1.1\n---\n${text}` },
    problems: ["E_YAML_DIRECTIVE lab.yaml:1:1"],
  },
  {
    title: "values nested too deeply are refused",
    files: { "lab.yaml": (text) => `${text}deep: ${"[".repeat(30)}${"]".repeat(30)}\n` },
    problems: ["E_KEY_UNKNOWN lab.yaml:27:1", "E_YAML_DEEP lab.yaml:27:31"],
  },
];

const valueCases: readonly ProblemCase[] = [
  {
    title: "a missing key is asked for where its mapping stands",
    files: { [unit]: replacing("maker: Fennick Works\n", "") },
    problems: [`E_KEY_MISSING ${unit}:1:1`],
    says: ["the key `maker` is missing"],
  },
  {
    title: "a misspelt key is one problem, with the near name, and not a missing key as well",
    files: { [session]: replacing("operator:", "operater:") },
    problems: [`E_KEY_UNKNOWN ${session}:5:1`],
    says: ["unknown key `operater`", "did you mean `operator`?"],
  },
  {
    title: "a calibration term that is not known names the near one",
    files: { [rig]: replacing("force_span:", "force_spam:") },
    problems: [`E_KEY_UNKNOWN ${rig}:10:7`],
    says: ["did you mean `force_span`?"],
  },
  {
    title: "a measured value without a unit of measure is one problem",
    files: { [method]: replacing("prominence_cN:", "prominence:") },
    problems: [`E_SUFFIX_ABSENT ${method}:13:1`],
    says: ["write one of prominence_cN, prominence_mN"],
  },
  {
    title: "an unknown unit of measure in a key names the near one",
    files: { [method]: replacing("prominence_cN:", "prominence_cn:") },
    problems: [`E_SUFFIX_UNKNOWN ${method}:13:1`],
    says: ["did you mean `prominence_cN`?"],
  },
  {
    title: "a unit of measure that is none of the known ones is never taken for another one",
    files: { [method]: replacing("prominence_cN:", "prominence_lb:") },
    problems: [`E_SUFFIX_UNKNOWN ${method}:13:1`],
    says: ["prominence_gf", "a new name alone converts nothing"],
  },
  {
    title: "a unit of measure of another kind in a key is told apart",
    files: { [method]: replacing("prominence_cN:", "prominence_mm:") },
    problems: [`E_SUFFIX_WRONG ${method}:13:1`],
  },
  {
    title: "a limit's unit of measure must be that of its characteristic",
    files: { [unit]: replacing("nominal_cN: 45", "nominal_mm: 45") },
    problems: [`E_SUFFIX_WRONG ${unit}:14:40`],
  },
  {
    title: "a value in two units of measure is refused at the second",
    files: { [method]: replacing("prominence_cN: 3", "prominence_cN: 3\nprominence_mN: 30") },
    problems: [`E_MEASURE_TWICE ${method}:14:1`],
  },
  {
    title: "a key without a value is an error at the key",
    files: { [unit]: replacing("maker: Fennick Works", "maker:") },
    problems: [`E_VALUE_EMPTY ${unit}:2:1`],
  },
  {
    title: "a text in place of a list is an error",
    files: { [unit]: replacing("[usb, receiver]", "usb") },
    problems: [`E_VALUE_TYPE ${unit}:15:14`],
    says: ["`usb` stands where a list is expected", "write it in brackets: [ usb ]"],
  },
  {
    title: "a number in place of a text must be quoted, since 1.10 would become 1.1",
    files: { [session]: replacing('"1.4"', "1.10") },
    problems: [`E_TEXT_UNQUOTED ${session}:10:11`],
    says: ['put it in quotes: "1.10"'],
  },
  {
    title: "an id of the wrong form is an error",
    files: { [session]: replacing("method: keystroke@2", "method: keystroke 2") },
    problems: [`E_TEXT_FORM ${session}:3:9`],
  },
  {
    title: "a method named by its file is told its id",
    files: { [session]: replacing("method: keystroke@2", "method: keystroke-2") },
    problems: [`E_TEXT_FORM ${session}:3:9`],
    says: ["did you mean `keystroke@2`?"],
  },
  {
    title: "a missing key says what to write for it",
    files: { [unit]: (text) => text.replace(/^status: .*\n/m, "").replace(/^received: .*\n/m, "") },
    problems: [`E_KEY_MISSING ${unit}:1:1`, `E_KEY_MISSING ${unit}:1:1`],
    says: ["add it: a day, such as 2026-03-09, or `not recorded`", "add it: one of held, returned, withdrawn"],
  },
  {
    title: "an empty value says what to write",
    files: { [session]: (text) => text.replace(/^start: .*$/m, "start:") },
    problems: [`E_VALUE_EMPTY ${session}:6:1`],
    says: ["write date, time and offset, such as 2026-03-09T09:10:00Z"],
  },
  {
    title: "a value that is not among the allowed ones names the near one",
    files: { [unit]: replacing("status: held", "status: helt") },
    problems: [`E_VALUE_UNKNOWN ${unit}:8:9`],
    says: ["did you mean `held`?"],
  },
  {
    title: "a kind of method that is not known is the only thing said about it",
    files: { [method]: replacing("kind: keystroke", "kind: keystrokes") },
    problems: [`E_VALUE_UNKNOWN ${method}:2:7`],
  },
  {
    title: "a number with its unit of measure behind it is no number",
    files: { [method]: replacing("prominence_cN: 3", "prominence_cN: 3 cN") },
    problems: [`E_NUMBER ${method}:13:16`],
  },
  {
    title: "a hexadecimal number is no number",
    files: { [method]: replacing("prominence_cN: 3", "prominence_cN: 0x3") },
    problems: [`E_NUMBER ${method}:13:16`],
  },
  {
    title: "an infinity is no number, in YAML and in CSV",
    files: { [method]: replacing("prominence_cN: 3", "prominence_cN: .inf"), [force]: replacing(",30.8,", ",NaN,") },
    problems: [`E_NUMBER_NOT_FINITE ${method}:13:16`, `E_NUMBER_NOT_FINITE ${force}:3:20`],
  },
  {
    title: "a number outside its range is an error",
    files: { [method]: replacing("prominence_cN: 3", "prominence_cN: 0") },
    problems: [`E_NUMBER_RANGE ${method}:13:16`],
    says: ["more than 0"],
  },
  {
    title: "a fraction in place of a whole number is an error, in YAML and in CSV",
    files: { [method]: replacing("min_keys: 1", "min_keys: 1.5"), [presses]: replacing(",1470,", ",1470.5,") },
    problems: [`E_WHOLE_NUMBER ${method}:7:11`, `E_WHOLE_NUMBER ${presses}:4:24`],
  },
  {
    title: "a decimal comma is named, with the number as it should be written",
    files: { [method]: replacing("0.12", "0,12"), [force]: replacing(",30.8,", ',"30,8",') },
    problems: [`E_DECIMAL_COMMA ${method}:12:22`, `E_DECIMAL_COMMA ${force}:3:20`],
    says: ["`0,12` has a decimal comma", "write it with a point: 0.12"],
  },
  {
    title: "an empty list where one item is needed is an error",
    files: { [unit]: replacing("[usb, receiver]", "[]") },
    problems: [`E_LIST_LENGTH ${unit}:15:14`],
  },
  {
    title: "a list that names one thing twice is an error at the second",
    files: { [method]: replacing("[KeyF, KeyA]", "[KeyF, KeyA, KeyF]") },
    problems: [`E_LIST_REPEATS ${method}:6:20`],
    says: ["the list names KeyF twice"],
  },
  {
    title: "a day that is not in the calendar is an error",
    files: { [unit]: replacing("2026-02-11", "2026-02-30"), [checks]: replacing("2026-01-05", "05.01.2026") },
    problems: [`E_DATE_INVALID ${checks}:2:1`, `E_DATE_INVALID ${unit}:5:11`],
  },
  {
    title: "a time without an offset from UTC is an error",
    files: { [session]: replacing("2026-03-09T09:10:00Z", "2026-03-09T09:10:00") },
    problems: [`E_TIME_INVALID ${session}:6:8`],
  },
  {
    title: "a key must be named by its code, in YAML and in CSV",
    files: { [method]: replacing("[KeyF, KeyA]", "[KeyF, keyA]"), [presses]: replacing("usb,KeyF", "usb,F") },
    problems: [`E_KEY_CODE ${method}:6:14`, `E_KEY_CODE ${presses}:2:5`],
    says: ["did you mean `KeyA`?", "did you mean `KeyF`?"],
  },
  {
    title: "a characteristic that is not known names the near one",
    files: { [readings]: replacing("actuation_force", "actuation_forse") },
    problems: [`E_CHARACTERISTIC_UNKNOWN ${readings}:2:50`],
    says: ["did you mean `actuation_force`?"],
  },
  {
    title: "a unit of measure that is not known names the near one",
    files: { [readings]: replacing("45.1,cN", "45.1,cn") },
    problems: [`E_SYMBOL_UNKNOWN ${readings}:2:71`],
  },
  {
    title: "a unit of measure that does not fit the characteristic is an error",
    files: { [readings]: replacing("45.1,cN", "45.1,mm"), [checks]: replacing("45,cN", "45,mm") },
    problems: [`E_SYMBOL_WRONG ${checks}:2:59`, `E_SYMBOL_WRONG ${readings}:2:71`],
  },
];

const relationCases: readonly ProblemCase[] = [
  {
    title: "an id that differs from its folder is an error",
    files: { [unit]: replacing("id: u01", "id: u02") },
    problems: [`E_ID_PATH ${unit}:1:5`],
  },
  {
    title: "a session in another unit's folder is an error",
    files: {
      [session]: replacing("unit: u01", "unit: u02"),
      "units/u02/unit.yaml": validArchive()[unit]!.replace("id: u01", "id: u02"),
    },
    problems: [`E_ID_PATH ${session}:2:7`],
  },
  {
    title: "a session that names an unknown method, rig, unit or role names the near one",
    files: {
      [session]: (text) =>
        text
          .replace("keystroke@2", "keystrokes@2")
          .replace("tester-1", "tester-2")
          .replace("unit: u01", "unit: u011")
          .replace("operator-1", "operator-3"),
    },
    problems: [
      `E_UNIT_UNKNOWN ${session}:2:7`,
      `E_METHOD_UNKNOWN ${session}:3:9`,
      `E_RIG_UNKNOWN ${session}:4:6`,
      `E_ROLE_UNKNOWN ${session}:5:11`,
    ],
    says: ["unknown unit `u011`", "did you mean `u01`?"],
  },
  {
    title: "a reader who is no role is reported once",
    files: { [presses]: (text) => text.replaceAll("reader-b", "reader-c") },
    problems: [`E_ROLE_UNKNOWN ${presses}:3:15`],
  },
  {
    title: "a session cannot be measured by a method of scoring",
    files: { [session]: replacing("keystroke@2", "scoring@1") },
    problems: [`E_METHOD_KIND ${session}:3:9`],
  },
  {
    title: "a method's numbers must not contradict each other",
    files: { [latency]: replacing("kept: 2", "kept: 4"), [method]: replacing("[1, 2]", "[1, 3]") },
    problems: [`E_METHOD_NUMBERS ${method}:10:14`, `E_METHOD_NUMBERS ${latency}:7:7`],
    says: ["`cycles_used: 3` contradicts `cycles: 2`"],
  },
  {
    title: "a method that replaces one which was left behind is told to name none",
    files: { [method]: replacing("replaces: keystroke@1", "replaces: touching@1") },
    problems: [`E_REPLACES_UNKNOWN ${method}:4:11`],
    says: ["where it was never used here, remove `replaces`"],
  },
  {
    title: "a method that replaces an unknown one is an error",
    files: { [method]: replacing("replaces: keystroke@1", "replaces: keystroke@3") },
    problems: [`E_REPLACES_UNKNOWN ${method}:4:11`],
  },
  {
    title: "methods that replace each other in a circle are reported once",
    files: { "methods/keystroke-1.yaml": replacing("since:", "replaces: keystroke@2\nsince:") },
    problems: ["E_REPLACES_CIRCULAR methods/keystroke-1.yaml:4:11"],
    says: ["keystroke@1, keystroke@2, keystroke@1"],
  },
  {
    title: "a method cannot replace one of another kind",
    files: { [latency]: replacing("since:", "replaces: keystroke@1\nsince:") },
    problems: [`E_REPLACES_KIND ${latency}:4:11`],
  },
  {
    title: "a rig that cannot take the readings is an error",
    files: { [session]: replacing("rig: tester-1", "rig: camera-1") },
    problems: [`E_RIG_KIND ${session}:4:6`],
    says: ["the rig is camera_plunger; the method needs force_tester"],
  },
  {
    title: "a connection that the unit does not have is an error, in the settings and in a row",
    files: {
      [film]: replacing("  usb:", "  ubs: {}\n  usb:"),
      [presses]: (text) => `${text}bluetooth,KeyF,c1,1,reader-a,100,,131,ok,\n`,
    },
    problems: [
      `W_CONNECTION_NO_PRESSES ${presses}:1:1`,
      `E_CONNECTION_UNKNOWN ${presses}:7:1`,
      `W_PRESSES_BELOW_MINIMUM ${presses}:7:1`,
      `E_CONNECTION_UNKNOWN ${film}:11:3`,
    ],
  },
  {
    title: "a study's reading over an unknown connection is an error",
    files: { [readings]: replacing("u01,KeyF,,", "u01,KeyF,usb2,") },
    problems: [`E_CONNECTION_UNKNOWN ${readings}:2:10`],
  },
  {
    title: "a study's reading of an unknown unit, rig or method is an error",
    files: {
      [readings]: (text) =>
        text.replace("u01,KeyF", "u09,KeyF").replace("tester-1,keystroke@2,2", "tester-7,keystroke@5,2"),
    },
    problems: [`E_UNIT_UNKNOWN ${readings}:2:1`, `E_RIG_UNKNOWN ${readings}:4:23`, `E_METHOD_UNKNOWN ${readings}:4:32`],
  },
  {
    title: "a check of an unknown unit is an error",
    files: { [checks]: replacing("check_standard,u01", "check_standard,u10") },
    problems: [`E_UNIT_UNKNOWN ${checks}:2:27`],
  },
  {
    title: "a limit without a number is an error",
    files: { "lab.yaml": replacing("    min_cN: 25\n    max_cN: 150\n", "") },
    problems: ["E_LIMIT_EMPTY lab.yaml:20:5"],
  },
  {
    title: "a limit whose numbers do not ascend is an error",
    files: { [unit]: replacing("min_cN: 35, max_cN: 55", "min_cN: 55, max_cN: 35") },
    problems: [`E_LIMIT_ORDER ${unit}:14:40`],
    says: ["min 55, nominal 45, max 35 is not in ascending order"],
  },
  {
    title: "a merit curve whose values do not ascend is an error",
    files: { [scoring]: replacing("[50, 1], [90, 0]", "[90, 1], [50, 0]") },
    problems: [`E_CURVE_ORDER ${scoring}:7:23`],
  },
  {
    title: "a merit above 1 is out of range, at its place in the curve",
    files: { [scoring]: replacing("[50, 1]", "[50, 1.5]") },
    problems: [`E_NUMBER_RANGE ${scoring}:7:40`],
  },
  {
    title: "grades must descend and end at 0",
    files: { [scoring]: replacing("from: 0 }", "from: 0.2 }") },
    problems: [`E_GRADES_ORDER ${scoring}:11:9`],
  },
  {
    title: "a weight without a curve is an error",
    files: { [scoring]: replacing("latency: 1 }", "latency_kept: 1 }") },
    problems: [`E_WEIGHT_NO_CURVE ${scoring}:10:39`],
  },
  {
    title: "a session that ends before it starts, and a calibration due before its date, are errors",
    files: { [session]: replacing("2026-03-09T10:02", "2026-03-09T08:02"), [rig]: replacing("due: 2026", "due: 2024") },
    problems: [`E_DATE_ORDER ${rig}:7:10`, `W_CALIBRATION_EXPIRED ${session}:4:6`, `E_DATE_ORDER ${session}:7:6`],
  },
  {
    title: "a session before the unit was received is an error",
    files: { [unit]: replacing("2026-02-11", "2026-03-10") },
    problems: [`E_SESSION_BEFORE_RECEIVED ${session}:6:8`],
  },
  {
    title: "a session before its method came into use is warned of",
    files: { [method]: replacing("since: 2026-01-02", "since: 2026-05-01") },
    problems: [`W_METHOD_BEFORE_SINCE ${session}:6:8`],
  },
  {
    title: "an expired calibration is a warning",
    files: { [rig]: replacing("due: 2026-11-03", "due: 2026-03-08") },
    problems: [`W_CALIBRATION_EXPIRED ${session}:4:6`],
    says: ["the calibration of tester-1 had expired on 2026-03-09", "note: C-25-118: from 2025-11-03, due 2026-03-08"],
  },
  {
    title: "a session before the first calibration is a warning",
    files: { [rig]: replacing("date: 2025-11-03", "date: 2026-03-10") },
    problems: [`W_CALIBRATION_NOT_YET ${session}:4:6`],
  },
  {
    title: "a press speed that is not stated is a warning",
    files: { [session]: replacing("press_speed_mm_per_s: 0.5\n", "") },
    problems: [`W_PRESS_SPEED_UNSTATED ${session}:3:9`],
  },
  {
    title: "a press speed that is not the method's is a warning, whatever its unit of measure",
    files: { [session]: replacing("press_speed_mm_per_s: 0.5", "press_speed_mm_per_min: 60") },
    problems: [`W_PRESS_SPEED_DIFFERS ${session}:8:25`],
    says: ["the press speed is 1 mm/s; the method asks for 0.5 mm/s"],
  },
  {
    title: "a connection that was measured without settings is a warning",
    files: { [presses]: (text) => text.replaceAll("usb,", "receiver,") },
    problems: [`W_CONNECTION_NO_PRESSES ${presses}:1:1`, `W_CONNECTION_SETTINGS_ABSENT ${presses}:2:1`],
  },
];

const tableCases: readonly ProblemCase[] = [
  {
    title: "a header without rows is an error",
    files: { [force]: "key,cycle,stroke,displacement_mm,force_cN,contact\n" },
    problems: [`E_CSV_HEADER_ONLY ${force}:1:50`],
  },
  {
    title: "a table without a header is one error",
    files: { [force]: (text) => text.slice(text.indexOf("\n") + 1) },
    problems: [`E_CSV_HEADER_ABSENT ${force}:1:1`],
  },
  {
    title: "semicolons between fields are named",
    files: { [force]: (text) => text.replaceAll(",", ";") },
    problems: [`E_CSV_DELIMITER ${force}:1:4`],
    says: ["separated by `;`"],
  },
  {
    title: "a quote that is never closed is reported at its opening",
    files: { [presses]: replacing("The lamp flickered", '"The lamp flickered') },
    problems: [`E_CSV_QUOTE_UNCLOSED ${presses}:4:38`],
  },
  {
    title: "a quote inside an unquoted field is an error, and so is one inside a quoted field",
    files: {
      [presses]: (text) =>
        text.replace("The lamp", 'The "lamp"').replace("ok,\nusb,KeyF,c1,4", 'ok,"a"b"\nusb,KeyF,c1,4'),
    },
    problems: [
      `W_PRESSES_BELOW_MINIMUM ${presses}:2:1`,
      `E_CSV_QUOTE_STRAY ${presses}:4:42`,
      `E_CSV_QUOTE_STRAY ${presses}:5:40`,
    ],
  },
  {
    title: "a missing column is named in the header",
    files: {
      [force]: (text) =>
        text
          .split("\n")
          .map((line) => line.replace(/,[^,]*$/, ""))
          .join("\n"),
    },
    problems: [`E_COLUMN_MISSING ${force}:1:1`],
    says: ["the column `contact` is missing"],
  },
  {
    title: "a misspelt column is one problem, with the near name",
    files: { [force]: replacing("contact", "contacts") },
    problems: [`E_COLUMN_UNKNOWN ${force}:1:43`],
    says: ["did you mean `contact`?"],
  },
  {
    title: "a wrong unit of measure in a column is one problem",
    files: { [force]: replacing("force_cN", "force_mm"), [baseline]: replacing("pc_ms", "pc") },
    problems: [`E_SUFFIX_WRONG ${force}:1:34`, `E_SUFFIX_ABSENT ${baseline}:1:21`],
  },
  {
    title: "a column that stands twice is an error at the second, and a value in two units of measure",
    files: {
      [force]: (text) => text.replace("contact", "force_gf").replace("cycle", "contact"),
      [presses]: replacing("mark_frame", "contact_frame"),
    },
    problems: [
      `E_COLUMN_MISSING ${force}:1:1`,
      `E_MEASURE_TWICE ${force}:1:45`,
      `E_COLUMN_MISSING ${presses}:1:1`,
      `E_COLUMN_TWICE ${presses}:1:48`,
    ],
  },
  {
    title: "a row that ends early is reported behind its end",
    files: { [force]: replacing("KeyF,1,press,0.500,34.0,0", "KeyF,1,press") },
    problems: [`E_ROW_SHORT ${force}:7:13`],
    says: ["row has 3 fields, the header has 6", "the row ends early; was the export cut off?"],
  },
  {
    title: "a row that is too long is reported from its first field too many",
    files: { [force]: replacing("KeyF,1,press,0.500,34.0,0", "KeyF,1,press,0,500,34,0,0") },
    problems: [`E_ROW_LONG ${force}:7:23`],
    says: ["is there a decimal comma"],
  },
  {
    title: "blank lines between rows are warned of, and later lines keep their numbers",
    files: { [force]: (text) => text.replace("KeyF,1,press,0.500", "\n\nKeyF,1,press,x") },
    problems: [`W_ROW_BLANK ${force}:7:1`, `E_NUMBER ${force}:9:14`],
  },
  {
    title: "rows of empty fields, as spreadsheets leave them, are rows without a value, at the end of the file too",
    files: { [force]: (text) => `${text}${",".repeat(5)}\n${",".repeat(5)}\n` },
    problems: [`W_ROW_BLANK ${force}:330:1`],
    says: ["a row without any value"],
  },
  {
    title: "empty fields at the end of all lines, as spreadsheets write them, are one problem of the header",
    files: { [force]: (text) => text.replace(/$/gm, ",,").replace(/,,$/, "") },
    problems: [`E_COLUMN_UNKNOWN ${force}:1:51`],
    says: ["remove the commas at the ends of all lines"],
  },
  {
    title: "empty fields at the end of one row are not taken for a decimal comma",
    files: { [force]: (text) => text.replace(/^(KeyF,1,press,0\.500.*)$/m, "$1,,") },
    problems: [`E_ROW_LONG ${force}:7:27`],
    says: ["as spreadsheets write them"],
  },
  {
    title: "what is missing is not said of a table whose rows cannot all be read",
    files: { [force]: (text) => text.replaceAll(/^Key[^A].*\n/gm, "").replace("0.500,34.0", "0.500,34.O") },
    problems: [`E_NUMBER ${force}:7:20`],
  },
  {
    title: "a cycle that counts from 0 is told to count from 1",
    files: { [force]: (text) => text.replace("KeyF,1,press,0.000", "KeyF,0,press,0.000") },
    problems: [`E_NUMBER_RANGE ${force}:2:6`],
    says: ["`cycle` counts from 1"],
  },
  {
    title: "an empty cell that must hold a value is an error",
    files: { [force]: replacing("0.500,34.0", ",34.0") },
    problems: [`E_CELL_EMPTY ${force}:7:14`],
  },
];

const keystrokeCases: readonly ProblemCase[] = [
  {
    title: "a contact other than 0, 1 or empty is an error",
    files: { [force]: replacing("0.500,34.0,0", "0.500,34.0,true") },
    problems: [`E_CONTACT_VALUE ${force}:7:25`],
  },
  {
    title: "a contact stated in some rows of a stroke only is an error at the first empty one",
    files: { [force]: replacing("0.500,34.0,0", "0.500,34.0,") },
    problems: [`E_CONTACT_PARTIAL ${force}:7:25`],
    says: ["40 of 41 rows"],
  },
  {
    title: "a contact source without contact readings is a warning",
    files: { [force]: mapForce(5, () => "") },
    problems: [`W_CONTACT_MISSING ${force}:1:43`],
  },
  {
    title: "contact readings without a source are a warning",
    files: { [session]: replacing("contact_source: electrical", "contact_source: none") },
    problems: [`W_CONTACT_UNDECLARED ${force}:2:24`],
  },
  {
    title: "a stroke recorded twice is an error at the second recording, apart or joined",
    files: {
      [force]: (text) => {
        const again = [...strokeRows("KeyA", 2, "press"), ""].join("\n");
        return (
          text.replace("KeyA,2,press", `${again}KeyA,2,press`) + [...strokeRows("KeyF", 1, "press"), ""].join("\n")
        );
      },
    },
    problems: [`E_STROKE_DUPLICATE ${force}:289:1`, `E_STROKE_DUPLICATE ${force}:371:1`],
    says: ["KeyA, cycle 2, press is recorded a second time; the first starts on line 248"],
  },
  {
    title: "a stroke whose rows do not stand together is an error",
    files: {
      [force]: (text) => {
        const lines = text.trimEnd().split("\n");
        const moved = lines.splice(30, 12);
        return [...lines, ...moved, ""].join("\n");
      },
    },
    problems: [`E_STROKE_SPLIT ${force}:318:1`],
    says: ["apart from those that start on line 2"],
  },
  {
    title: "a press without a release is a warning",
    files: {
      [force]: (text) =>
        text
          .split("\n")
          .filter((line) => !line.startsWith("KeyA,2,release"))
          .join("\n"),
    },
    problems: [`W_STROKE_ABSENT ${force}:248:1`],
    says: ["KeyA, cycle 2 has no release stroke"],
  },
  {
    title: "a stroke of a few rows is a warning",
    files: {
      [force]: (text) => {
        let kept = 0;
        const isKept = (line: string): boolean => !line.startsWith("KeyA,2,release") || kept++ < 5;
        return text.split("\n").filter(isKept).join("\n");
      },
    },
    problems: [`W_STROKE_SHORT ${force}:289:1`],
  },
  {
    title: "a press that moves up is a warning",
    files: {
      [force]: (text) =>
        text.replace(/^KeyA,2,(press|release)/gm, (_, stroke) => `KeyA,2,${stroke === "press" ? "release" : "press"}`),
    },
    problems: [`W_STROKE_DIRECTION ${force}:248:16`, `W_STROKE_DIRECTION ${force}:289:14`],
  },
  {
    title: "press and release exchanged throughout are one error, which says so",
    files: {
      [force]: (text) =>
        text.replace(/,(press|release),/g, (_, stroke) => (stroke === "press" ? ",release," : ",press,")),
    },
    problems: [`E_STROKE_DIRECTIONS ${force}:1:11`],
    says: ["press and release are exchanged"],
  },
  {
    title: "a displacement that counts upwards is one error, told from exchanged strokes by the force",
    files: { [force]: mapForce(3, (cell) => String(-Number(cell))) },
    problems: [`E_STROKE_DIRECTIONS ${force}:1:18`],
    says: ["the tester counts upwards"],
  },
  {
    title: "a displacement that never moves is an error",
    files: { [force]: (text) => text.replace(/^(KeyA,2,release),[\d.]+/gm, "$1,4.000") },
    problems: [`E_DISPLACEMENT_STILL ${force}:289:16`],
  },
  {
    title: "inches labelled as millimetres are an error that names the inch",
    files: { [force]: mapForce(3, (mm) => (Number(mm) / 25.4).toFixed(5)) },
    problems: [`E_DISPLACEMENT_MAGNITUDE ${force}:1:18`],
    says: ["`displacement_in` (it would be 4 mm)"],
  },
  {
    title: "a force that never changes is an error",
    files: { [force]: (text) => text.replace(/^(KeyA,2,press,[\d.]+),[\d.]+/gm, "$1,12.0") },
    problems: [`E_FORCE_FLAT ${force}:248:20`],
  },
  {
    title: "forces counted as negative are an error",
    files: { [force]: scaleForce(-1) },
    problems: [`E_FORCE_SIGN ${force}:1:34`],
  },
  {
    title: "newtons labelled as centinewtons are an error that names the newton",
    files: { [force]: scaleForce(0.01) },
    problems: [`E_FORCE_MAGNITUDE ${force}:1:34`],
    says: ["the force half-way down is 0.471 cN", "`force_N` (it would be 47.1 cN)"],
  },
  {
    title: "millinewtons labelled as centinewtons are an error that names the millinewton",
    files: { [force]: scaleForce(10) },
    problems: [`E_FORCE_MAGNITUDE ${force}:1:34`],
    says: ["`force_mN` (it would be 47.1 cN)"],
  },
  {
    title: "centinewtons labelled as newtons are an error that names the centinewton",
    files: { [force]: replacing("force_cN", "force_N") },
    problems: [`E_FORCE_MAGNITUDE ${force}:1:34`],
    says: ["`force_cN` (it would be 47.1 cN)"],
  },
  {
    title: "a key heavier than any ergonomic limit is a warning",
    files: { [force]: scaleForce(5) },
    problems: [`W_FORCE_MAGNITUDE ${force}:1:34`],
  },
  {
    title: "fewer keys than the method asks are a warning",
    files: { [force]: forceTable(["KeyA"], [1, 2]) },
    problems: [`W_KEYS_FEWER ${force}:1:1`],
    says: ["the method asks for 2 keys; the record has no rows of KeyF"],
  },
  {
    title: "usable keys below the method's minimum are a warning; an excluded cycle is not usable",
    files: {
      [method]: (text) => text.replace("min_keys: 1", "min_keys: 2").replace("cycles_used: [1, 2]", "cycles_used: [2]"),
    },
    problems: [`W_KEYS_BELOW_MINIMUM ${force}:1:1`],
  },
  {
    title: "a key that the method does not list is a warning",
    files: { [force]: forceTable(["KeyF", "KeyA", "KeyB"], [1, 2]) },
    problems: [`W_KEY_EXTRA ${force}:330:1`],
  },
  {
    title: "fewer cycles than the method asks are a warning at the key's first row",
    files: { [method]: replacing("cycles: 2", "cycles: 3") },
    problems: [`W_CYCLES_FEWER ${force}:2:1`, `W_CYCLES_FEWER ${force}:166:1`],
    says: ["2 cycles of KeyF recorded; the method asks for 3"],
  },
  {
    title: "an exclusion that excludes nothing is an error in the session",
    files: { [session]: replacing("key: KeyA, cycle: 2", "key: KeyA, cycle: 5") },
    problems: [`E_EXCLUSION_NO_ROWS ${session}:14:21`],
    says: ["recorded are cycles 1, 2 of KeyA"],
  },
];

const latencyCases: readonly ProblemCase[] = [
  {
    title: "a yes or no in place of a reason is an error",
    files: { [presses]: replacing("The lamp flickered", "1") },
    problems: [`E_EXCLUDED_NO_REASON ${presses}:4:38`],
  },
  {
    title: "an outcome `ok` without its frames is an error",
    files: { [presses]: replacing("1470,,1502", "1470,,") },
    problems: [`E_FRAME_ABSENT ${presses}:4:30`],
  },
  {
    title: "a response before the contact is an error",
    files: { [presses]: replacing("1470,,1502", "1502,,1470") },
    problems: [`E_RESPONSE_BEFORE_CONTACT ${presses}:4:30`],
  },
  {
    title: "an arrival before the start is an error, in microseconds whatever the column says",
    files: injection("usb,1,100,2100,\nusb,2,300,1300,\nusb,3,900,800,\n"),
    problems: ["E_RESPONSE_BEFORE_CONTACT units/u01/s2/timings.csv:4:11"],
    says: ["the response at 800 µs comes before the contact at 900 µs"],
  },
  {
    title: "a mark before the contact is an error",
    files: { [presses]: replacing("100,116,131", "100,99,131") },
    problems: [`E_MARK_BEFORE_CONTACT ${presses}:2:28`],
  },
  {
    title: "a missed press with a response is a warning",
    files: { [presses]: replacing("4210,,,missed", "4210,,4240,missed") },
    problems: [`W_OUTCOME_FRAMES ${presses}:6:30`],
  },
  {
    title: "one press given twice by one reader is an error that names the first line",
    files: { [presses]: replacing("c1,3,", "c1,02,") },
    problems: [`W_PRESSES_BELOW_MINIMUM ${presses}:2:1`, `E_PRESS_DUPLICATE ${presses}:5:13`],
    says: ["the method's minimum is 2", "the first is on line 4"],
  },
  {
    title: "readers who name different keys for one press are a warning",
    files: { [presses]: replacing("usb,KeyF,c1,1,reader-b", "usb,KeyA,c1,1,reader-b") },
    problems: [`W_PRESS_READERS_DIFFER ${presses}:3:5`],
  },
  {
    title: "fewer presses than the method asks are a warning",
    files: { [latency]: replacing("presses: 3", "presses: 5") },
    problems: [`W_PRESSES_FEWER ${presses}:2:1`],
    says: ["usb has 4 presses; the method asks for 5"],
  },
  {
    title: "valid presses below the method's minimum are a warning; excluded and missed ones do not count",
    files: { [latency]: replacing("min_presses: 2", "min_presses: 3") },
    problems: [`W_PRESSES_BELOW_MINIMUM ${presses}:2:1`],
    says: ["usb has 2 valid presses; the method's minimum is 3"],
  },
  {
    title: "settings of a connection that no row measures are a warning",
    files: { [film]: replacing("refresh_rate", "  receiver: {}\nrefresh_rate") },
    problems: [`W_CONNECTION_NO_PRESSES ${presses}:1:1`],
  },
  {
    title: "a clip that is not among the films names the near one",
    files: { [presses]: replacing("KeyF,c1,3", "KeyF,c2,3") },
    problems: [`E_CLIP_UNKNOWN ${presses}:5:10`],
  },
  {
    title: "a press outside the range of its clip is an error",
    files: { [films]: replacing(",1,4", ",1,3") },
    problems: [`E_PRESS_OUTSIDE_CLIP ${presses}:6:13`],
    says: ["press 4 is not on this clip; films.csv gives it presses 1 to 3"],
  },
  {
    title: "a clip listed twice is an error",
    files: { [films]: (text) => `${text}c1,c1b.mov,,1000,1,4\n` },
    problems: [`E_FILM_DUPLICATE ${films}:3:1`],
  },
  {
    title: "a clip whose last press comes before its first is an error",
    files: { [films]: replacing(",1,4", ",4,1") },
    problems: [`E_FILM_RANGE ${films}:2:83`],
  },
  {
    title: "a sha256 of the wrong form is an error",
    files: { [films]: replacing("0123456789abcdef", "0123456789ABCDEF") },
    problems: [`E_TEXT_FORM ${films}:2:11`],
    says: ["`sha256sum FILM` prints it"],
  },
  {
    title: "a frame rate that is not the method's is a warning",
    files: { [films]: replacing(",1000,", ",960,") },
    problems: [`W_FRAME_RATE_DIFFERS ${films}:2:76`],
    says: ["the clip has 960 Hz; the method asks for 1000 Hz"],
  },
  {
    title: "one shot given twice is an error",
    files: { [baseline]: replacing("before,2", "before,1") },
    problems: [`E_BASELINE_DUPLICATE ${baseline}:3:8`],
  },
  {
    title: "a shot without any part is an error",
    files: { [baseline]: replacing("6.1,4.1,,", ",,,") },
    problems: [`E_BASELINE_EMPTY_SHOT ${baseline}:5:7`],
  },
  {
    title: "a part that the method subtracts and nobody measured is an error",
    files: {
      [baseline]: (text) => text.replace(/,4\.\d,/g, ",,").replace("after,1,,6.3,,", "after,1,,6.3,,9"),
    },
    problems: [`E_BASELINE_PART_ABSENT ${baseline}:1:27`],
  },
  {
    title: "a missing block of the baseline is a warning",
    files: { [baseline]: (text) => text.slice(0, text.indexOf("after")) },
    problems: [`W_BASELINE_BLOCK_ABSENT ${baseline}:1:1`],
  },
  {
    title: "fewer shots than the method asks are a warning",
    files: { [latency]: replacing("baseline_shots: 2", "baseline_shots: 3") },
    problems: [`W_BASELINE_SHOTS_FEWER ${baseline}:2:1`, `W_BASELINE_SHOTS_FEWER ${baseline}:4:1`],
  },
  {
    title: "a reading that leaves a factor of the study empty is an error",
    files: { [readings]: replacing("keystroke@2,1,1,1", "keystroke@2,,1,1") },
    problems: [`E_FACTOR_EMPTY ${readings}:2:44`],
  },
  {
    title: "a factor with a single level is a warning",
    files: { "studies/crossed-1/study.yaml": replacing("[operator, day]", "[operator, day, mount]") },
    problems: [`W_FACTOR_CONSTANT ${readings}:1:52`],
  },
  {
    title: "readings that cannot be told apart are a warning",
    files: { [readings]: (text) => `${text}${text.trim().split("\n")[1]}\n` },
    problems: [`W_READING_DUPLICATE ${readings}:5:50`],
  },
];

export const problemCases: readonly ProblemCase[] = [
  ...fileCases,
  ...receivedCases,
  ...yamlCases,
  ...valueCases,
  ...relationCases,
  ...tableCases,
  ...keystrokeCases,
  ...latencyCases,
];
