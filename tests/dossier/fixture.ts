import { readFileSync } from "node:fs";
import type { Chart } from "../../src/figures/chart.js";
import type { Table } from "../../src/figures/table.js";
import { table } from "../../src/figures/table.js";
import { decideAll, decideConformity } from "../../src/metrology/decision.js";
import { linear } from "../../src/metrology/derive.js";
import type { Evidence, EvidenceRows } from "../../src/metrology/evidence.js";
import { evidenceStep } from "../../src/metrology/evidence.js";
import { Absent, Count, Quantity } from "../../src/metrology/quantity.js";
import type { Component } from "../../src/metrology/source.js";
import { boundedSource, normalSource, observedSource } from "../../src/metrology/source.js";
import type { Verdict } from "../../src/metrology/verdict.js";
import type { DossierInput } from "../../src/dossier/index.js";
import type {
  CellOutcome,
  InlineOutcome,
  Printable,
  TemplateProblem,
  TemplateRun,
} from "../../src/templates/outcome.js";
import { parseTemplate } from "./template-tokens.js";
import { drawStub, stubStyles } from "./draw-stub.js";

const file = "templates/unit-dossier.md";
const forceCsv = "units/u07/s2/force.csv";
const pressesCsv = "units/u07/s3/presses.csv";
const baselineCsv = "units/u07/s3/baseline.csv";
const rigYaml = "rigs/tester-1/rig.yaml";
const unitYaml = "units/u07/unit.yaml";

const rows = (path: string, firstLine: number, lastLine: number, ...columns: string[]): EvidenceRows => ({
  kind: "rows",
  file: path,
  firstLine,
  lastLine,
  columns,
});

const span = normalSource("rig/tester-1/force-span", "Span of the force tester", 0.003, "1", 60);
const zero = normalSource("rig/tester-1/force-zero", "Zero of the force tester", 0.15, "cN");
const step = boundedSource("rig/tester-1/force-step", "Resolution of force", 0.05, "cN");
const scale = normalSource("rig/tester-1/displacement-scale", "Scale of displacement", 0.001, "1");
const compliance = boundedSource("rig/tester-1/compliance", "Compliance of the rig", 0.00004, "mm/cN");
const touch = boundedSource("method/keystroke-2/touch", "Threshold of touch", 0.006, "mm", "triangular");
const rigEvidence = [
  rows(rigYaml, 14, 14, "calibrations.0.terms.force_span"),
  rows(rigYaml, 15, 15, "calibrations.0.terms.force_zero"),
];

const codes = ["KeyA", "KeyE", "KeyF", "KeyI", "KeyN", "KeyP", "KeyT", "KeyZ"];
const forces = [44.12, 45.37, 43.88, 45.02, 46.31, 53.64, 44.75, 45.9];
const travels = [1.982, 2.011, 1.968, 2.003, 2.024, 2.046, 1.991, 2.017];
const noises = [0.21, 0.34, 0.18, 0.25, 0.4, 0.31, 0.22, 0.27];

/** Evidence of one characteristic of one cycle: a run of lines on each stroke. */
function cycleEvidence(key: number, cycle: number, what: string): Evidence {
  const first = 2 + (key * 3 + cycle) * 1604;
  const press = rows(forceCsv, first, first + 801, "displacement_mm", "force_cN", "contact");
  return evidenceStep(`${what}, local quadratic fit`, [press, ...rigEvidence]);
}

function keyEvidence(key: number, what: string): Evidence {
  const cycles = key === 5 ? [0, 2] : [0, 1, 2];
  return evidenceStep(
    `mean of ${cycles.length} cycles`,
    cycles.map((cycle) => cycleEvidence(key, cycle, what)),
    key === 5 ? "cycle 2 of KeyP was taken out by hand: the probe slipped off the keycap" : undefined,
  );
}

function keyForce(key: number): Quantity<"cN"> {
  const repeat = observedSource(
    `key/u07/s2/${codes[key]}/force`,
    "Repeatability of cycles",
    noises[key]!,
    "cN",
    key === 5 ? 1 : 2,
  );
  const components: Component[] = [
    { source: repeat, contribution: noises[key]! },
    { source: span, contribution: forces[key]! * span.u },
    { source: zero, contribution: zero.u },
    { source: step, contribution: step.u },
  ];
  return new Quantity(forces[key]!, "cN", components, keyEvidence(key, "force at the actuation point"));
}

function keyTravel(key: number): Quantity<"mm"> {
  const repeat = observedSource(
    `key/u07/s2/${codes[key]}/travel`,
    "Repeatability of cycles",
    noises[key]! / 40,
    "mm",
    2,
  );
  const components: Component[] = [
    { source: repeat, contribution: repeat.u },
    { source: scale, contribution: travels[key]! * scale.u },
    { source: compliance, contribution: -forces[key]! * compliance.u },
    { source: touch, contribution: touch.u },
  ];
  return new Quantity(travels[key]!, "mm", components, keyEvidence(key, "touch to actuation"));
}

const keyForces = codes.map((_, key) => keyForce(key));
const keyTravels = codes.map((_, key) => keyTravel(key));

function unitMean<S extends string>(keys: readonly Quantity<S>[], choice: number): Quantity<S> {
  const mean = linear(
    keys,
    keys.map(() => 1 / keys.length),
    `mean of ${keys.length} keys`,
  );
  const source = observedSource(`unit/u07/choice/${mean.symbol}`, "Choice of keys, 8 of 26", choice, mean.symbol, 7);
  return new Quantity(mean.value, mean.symbol, [...mean.components, { source, contribution: choice }], mean.evidence);
}

const meanForce = unitMean(keyForces, 0.92);
const meanTravel = unitMean(keyTravels, 0.0071);
const sdForce = new Quantity(
  3.04,
  "cN",
  [{ source: observedSource("unit/u07/sd/force", "Few keys", 0.81, "cN", 7), contribution: 0.81 }],
  evidenceStep(
    "standard deviation of 8 keys, less repeatability",
    keyForces.map((q) => q.evidence),
  ),
);

const limit = (value: number, line: number): Quantity<"cN"> =>
  new Quantity(value, "cN", [], rows(unitYaml, line, line, `limits.0.${line === 21 ? "min_cN" : "max_cN"}`));
const lower = limit(35, 21);
const upper = limit(55, 22);
const verdicts = keyForces.map((q) => decideConformity(q, { min: lower, max: upper }));
const sheet = decideAll(verdicts, "keys", new Count(26));
const keyCount = new Count(
  8,
  evidenceStep(
    "count of keys",
    keyForces.map((q) => q.evidence),
  ),
);

const frame = normalSource("rig/film-1/frame-clock", "Frame clock of the camera", 0.00005, "1");
const reader = boundedSource("reader/reader-a", "Reader's own offset", 0.5, "ms");
const system = observedSource("rig/film-1/system", "Latency of the display path", 0.18, "ms", 38);
const speed = normalSource("rig/film-1/plunger-speed", "Speed of the plunger", 2, "mm/s", 9);
const travelTime = new Quantity(
  16.7,
  "ms",
  [{ source: speed, contribution: -0.28 }],
  evidenceStep("pre-travel over plunger speed", [
    meanTravel.evidence,
    rows("rigs/film-1/rig.yaml", 18, 18, "calibrations.0.terms.plunger_speed"),
  ]),
);
const systemTime = new Quantity(
  24.31,
  "ms",
  [{ source: system, contribution: 0.18 }],
  evidenceStep("mean of 40 shots, display and computer parts", [rows(baselineCsv, 2, 41, "pc_ms", "display_ms")]),
);

function latencyOf(connection: string, film: number, scatter: number, firstLine: number): Quantity<"ms"> {
  const observed = new Quantity(
    film,
    "ms",
    [
      {
        source: observedSource(`presses/${connection}`, "Scatter of presses", scatter, "ms", 13),
        contribution: scatter,
      },
      { source: frame, contribution: film * frame.u },
      { source: reader, contribution: reader.u },
    ],
    evidenceStep("mean of 14 presses on film", [
      rows(pressesCsv, firstLine, firstLine + 13, "contact_frame", "response_frame"),
      rows("units/u07/s3/films.csv", 2, 2, "frame_rate_hz"),
    ]),
  );
  return linear([observed, systemTime, travelTime], [1, -1, -1], "film time less system latency less travel time");
}

const cable = latencyOf("cable", 46.92, 0.41, 2);
const radio = latencyOf("radio", 54.37, 0.77, 16);
const cableKept = new Quantity(
  cable.value - 0.62,
  "ms",
  cable.components,
  evidenceStep("mean of the fastest 11 of 14 presses", [cable.evidence]),
);
const difference = linear([cable, radio], [1, -1], "cable less radio");
const faster: Verdict = {
  kind: "verdict",
  family: "change",
  outcome: "yes",
  statement: "the two connections differ by more than chance, and by more than the smallest change that matters",
  rule: "two-sided test of a zero difference at 5 %, and both one-sided tests against 2 ms, Holm over connections",
  cites: [difference],
};
const enough: Verdict = {
  kind: "verdict",
  family: "criterion",
  outcome: "yes",
  statement: "8 keys were measured and the method asks for 8",
  rule: "at least as many as the method lists",
  cites: [keyCount],
};

const keyTable = table(
  [
    { key: "key", label: "Key" },
    { key: "travel", label: "Pre-travel", symbol: "mm" },
    { key: "force", label: "Actuation force", symbol: "cN" },
    { key: "peak", label: "Operating force", symbol: "cN" },
    { key: "verdict", label: "Data sheet" },
  ],
  codes.map((key, index) => ({
    key,
    travel: keyTravels[index]!,
    force: keyForces[index]!,
    peak: new Absent("cN", "no local peak of at least 3 cN before actuation", keyForces[index]!.evidence),
    verdict: verdicts[index]!,
  })),
  {
    finding:
      "KeyP is the heaviest key; seven of eight lie inside the data sheet's limits by more than their uncertainty.",
  },
);

const curvePoints = Array.from({ length: 161 }, (_, index): [number, number] => {
  const mm = index / 40;
  const bump = 9 * Math.exp(-(((mm - 1.4) / 0.35) ** 2));
  return [mm, 18 + 13.5 * mm + bump + (mm > 3.7 ? (mm - 3.7) * 160 : 0)];
});

const curve: Chart = {
  kind: "chart",
  marks: [],
  x: { label: "Displacement", symbol: "mm" },
  y: { label: "Force", symbol: "cN" },
  finding:
    "The force rises to 44 cN at actuation without a local peak, so this key is linear, and the bottom-out begins at 3.7 mm.",
  data: {
    columns: [
      { name: "displacement", label: "Displacement", symbol: "mm" },
      { name: "force", label: "Force", symbol: "cN" },
    ],
    rows: curvePoints,
  },
};
const keySpread: Chart = {
  kind: "chart",
  marks: [],
  x: { label: "Actuation force", symbol: "cN" },
  y: { label: "Key" },
  finding: "KeyP lies apart from the other seven by more than its uncertainty; no other pair can be told apart.",
  data: {
    columns: [
      { name: "key", label: "Key" },
      { name: "actuation_force", label: "Actuation force", symbol: "cN" },
    ],
    rows: codes.map((key, index) => [key, keyForces[index]!]),
  },
};
const pressValues = Array.from({ length: 28 }, (_, index) => {
  const radioPress = index >= 14;
  const value = (radioPress ? 13.4 : 5.9) + ((index * 7) % 5) * 0.41 - 0.8;
  const source = observedSource(`press/${index}`, "Frame of the film", 0.41, "ms", Infinity);
  return new Quantity(
    value,
    "ms",
    [
      { source, contribution: 0.41 },
      { source: reader, contribution: reader.u },
    ],
    evidenceStep("frames of one press", [rows(pressesCsv, 2 + index, 2 + index, "contact_frame", "response_frame")]),
  );
});
const presses: Chart = {
  kind: "chart",
  marks: [],
  x: { label: "Latency", symbol: "ms" },
  y: { label: "Connection" },
  finding: "The radio link is slower in every press and scatters about twice as much.",
  data: {
    columns: [
      { name: "connection", label: "Connection" },
      { name: "press", label: "Press" },
      { name: "latency", label: "Latency", symbol: "ms" },
    ],
    rows: pressValues.map((q, index) => [index < 14 ? "cable" : "radio", (index % 14) + 1, q]),
  },
};

const problem = (code: string, line: number, column: number, message: string, hint: string): TemplateProblem => ({
  code,
  severity: "error",
  file,
  line,
  column,
  length: 6,
  message,
  hint,
});

export const fixtureSource = readFileSync(new URL("./fixture-template.md", import.meta.url), "utf8");

/** A run by hand: two sessions of one unit, with everything that a page can hold, and things that went wrong. */
export function fixtureRun(source = fixtureSource): TemplateRun {
  const { tokens, cells, inlines } = parseTemplate(source);
  const connectionsLine = cells.find((cell) => cell.id === "connections")?.firstLine ?? 0;
  const byId: Readonly<Record<string, Chart | Verdict | Table>> = {
    curve,
    "key-spread": keySpread,
    presses,
    "key-table": keyTable,
    "enough-keys": enough,
    faster,
  };
  const outcomes = cells.map((cell): CellOutcome => {
    if (cell.id === "connections") {
      return {
        cell,
        status: "failed",
        problem: problem(
          "E_CELL_THREW",
          connectionsLine,
          57,
          "TypeError: connectionRow is not a function",
          "connectionRow is declared with const further down; move its work cell up or correct the name",
        ),
      };
    }
    return { cell, status: "done", result: cell.id === null ? null : byId[cell.id]! };
  });
  const values: readonly Printable[] = [
    "Alder 60 (u07)",
    keyCount,
    { kind: "result", label: "Actuation force, mean of all alphabetic keys", value: meanForce },
    { kind: "result", label: "Pre-travel, mean of all alphabetic keys", value: meanTravel },
    { kind: "result", label: "Data sheet: actuation force of each key", value: keyCount, verdict: sheet },
    { kind: "reference", target: "curve" },
    { kind: "reference", target: "key-table" },
    { kind: "result", label: "Actuation force, standard deviation between keys", value: sdForce },
    { kind: "reference", target: "key-spread" },
    { kind: "reference", target: "key-table" },
    { kind: "result", label: "Latency over cable, all valid presses", value: cable },
    { kind: "result", label: "Latency over cable, fastest 11 of 14", value: cableKept },
    { kind: "result", label: "Latency over radio, all valid presses", value: radio },
  ];
  const inlineOutcomes = inlines.map((inline, index): InlineOutcome => {
    const result = values[index];
    if (result !== undefined) return { inline, status: "done", result, workCells: index === 0 ? [] : [0] };
    return {
      inline,
      status: "not_run",
      problem: problem(
        "E_NOT_RUN",
        inline.line,
        inline.column,
        "not run: needs scan, which no cell declares",
        "declare it in a work cell",
      ),
    };
  });
  return { file, source, frontMatter: { subject: "unit" }, tokens, cells: outcomes, inlines: inlineOutcomes };
}

const hash = (seed: number): string =>
  Array.from({ length: 64 }, (_, i) => ((i * seed + seed) % 16).toString(16)).join("");

export function fixtureInput(changes: Partial<DossierInput> = {}): DossierInput {
  return {
    run: fixtureRun(),
    titleBlock: {
      number: null,
      revision: "0",
      item: {
        name: "u07, Alder 60",
        particulars: [
          { label: "Maker", text: "Fernhill Input Works" },
          { label: "Sample", text: "3, received 2026-02-11, new and sealed" },
          { label: "Keys", text: "linear, full travel, ANSI layout" },
        ],
      },
      methods: [
        { id: "keystroke@2", title: "Force-displacement of eight alphabetic keys" },
        { id: "latency@1", title: "Latency from film of a driven plunger and the screen" },
      ],
      laboratory: {
        name: "Brackwater Halls, Equipment Laboratory",
        address: "4 Cooper's Quay, Brackwater",
        contact: "equipment@brackwater-halls.example",
      },
      customer: "Brackwater Halls, Board of Examinations",
      work: { start: "2026-03-09", end: "2026-03-11" },
      issued: null,
      approvedBy: null,
    },
    statements: [
      { heading: "Items tested", text: "The results concern only the items tested, as received." },
      {
        heading: "Reproduction",
        text: "Not to be reproduced except in full without the laboratory's written approval.",
      },
      {
        heading: "Limits of use",
        text: "This dossier is not a certificate and gives no medical or safety advice; local codes and accredited laboratories come first.",
      },
      { heading: "Safety", text: "The driven plunger can pinch; nobody works within its reach while it is armed." },
    ],
    deviations: [
      {
        where: "Session s2, KeyP, cycle 2",
        text: "taken out by hand: the probe slipped off the keycap",
        file: "units/u07/s2/session.yaml",
        line: 18,
      },
      { where: "Session s3", text: "the room was 1.4 °C above the method's range for the last four presses" },
    ],
    files: [
      forceCsv,
      "units/u07/s2/session.yaml",
      pressesCsv,
      baselineCsv,
      "units/u07/s3/films.csv",
      unitYaml,
      rigYaml,
      "rigs/film-1/rig.yaml",
    ].map((path, index) => ({ path, bytes: 1204 + index * 90_417, sha256: hash(3 + 2 * index) })),
    tool: { name: "benchfolio", version: "0.1.0" },
    draw: drawStub,
    figureStyles: stubStyles,
    ...changes,
  };
}
