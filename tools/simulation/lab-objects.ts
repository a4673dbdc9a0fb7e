import type { Raw } from "./described.js";

/** Methods and rigs of the invented laboratory, as their files state them. */
export const keystrokeMethodRaw: Raw = {
  id: "keystroke@2",
  kind: "keystroke",
  title: "Force-displacement of eight alphabetic keys",
  replaces: "keystroke@1",
  since: "2026-03-02",
  keys: ["KeyA", "KeyE", "KeyF", "KeyI", "KeyN", "KeyP", "KeyT", "KeyZ"],
  min_keys: 6,
  conditioning_strokes: 5,
  cycles: 3,
  cycles_used: [1, 2, 3],
  press_speed_mm_per_s: 0.5,
  smoothing_window_mm: 0.12,
  prominence_cN: 3,
  bottom_out_slope_cN_per_mm: 300,
  touch_deviations: 6,
  touch_force_cN: 1.0,
  notes: ["The eight keys lie in all three rows and under both hands; they are the same for every unit."],
};

export const keystrokeOneRaw: Raw = {
  id: "keystroke@1",
  kind: "keystroke",
  title: "Force-displacement of one key",
  since: "2024-09-02",
  keys: ["KeyF"],
  min_keys: 1,
  conditioning_strokes: 3,
  cycles: 5,
  cycles_used: [1, 2, 3, 4, 5],
  press_speed_mm_per_s: 0.5,
  smoothing_window_mm: 0.2,
  prominence_cN: 5,
  bottom_out_slope_cN_per_mm: 300,
  touch_deviations: 6,
  touch_force_cN: 2.5,
  notes: ["One key stands for the unit."],
};

export const latencyMethodRaw: Raw = {
  id: "latency@1",
  kind: "latency",
  title: "Latency from film of a driven plunger and the screen",
  since: "2026-04-13",
  observes: "film",
  presses: 14,
  kept: 11,
  min_presses: 9,
  subtract: ["pc", "display"],
  subtract_travel: true,
  baseline_shots: 20,
  frame_rate_Hz: 960,
  compares: "all",
  notes: [
    "The three slowest presses of fourteen are left out of the published figure; the mean of all stands beside it.",
  ],
};

const testerTerms = {
  force_span: { value_ratio: 1, u_ratio: 0.003, distribution: "normal" },
  force_zero: { value_cN: 0, u_cN: 0.12, distribution: "normal" },
  displacement_scale: { value_ratio: 1, u_ratio: 0.001, distribution: "normal" },
  compliance: { value_mm_per_cN: 0.0001, u_mm_per_cN: 0.00002, distribution: "rectangular" },
} as const;

export const testerRaw: Raw = {
  id: "tester-1",
  kind: "force_tester",
  description: "Motor-driven column with a 5 N load cell and a flat probe of 8 mm",
  software: "Column control 3.2",
  calibrations: [
    { date: "2024-11-04", due: "2025-11-04", certificate: "C-24-107", terms: testerTerms },
    { date: "2025-11-03", due: "2026-11-03", certificate: "C-25-118", terms: testerTerms },
  ],
};

const secondTesterTerms = {
  ...testerTerms,
  compliance: { value_mm_per_cN: 0.00014, u_mm_per_cN: 0.00002, distribution: "rectangular" },
} as const;

export const secondTesterRaw: Raw = {
  id: "tester-2",
  kind: "force_tester",
  description: "Bench column with a 10 N load cell and a round probe of 6 mm; exports gram-force",
  software: "Bench export 1.9",
  calibrations: [
    { date: "2025-03-31", due: "2026-03-31", certificate: "C-25-041", terms: secondTesterTerms },
    { date: "2026-04-07", due: "2027-04-07", certificate: "C-26-044", terms: secondTesterTerms },
    { date: "2026-05-12", due: "2027-05-12", certificate: "C-26-061", terms: secondTesterTerms },
  ],
};

export const cameraRaw: Raw = {
  id: "camera-1",
  kind: "camera_plunger",
  description: "Voice-coil plunger and a camera of 960 frames a second",
  software: "Frame reader 1.7",
  calibrations: [
    {
      date: "2025-12-01",
      due: "2026-12-01",
      certificate: "C-25-131",
      terms: {
        frame_clock: { value_ratio: 1, u_ratio: 0.00005, distribution: "normal" },
        plunger_speed: { value_mm_per_s: 120, u_mm_per_s: 1.2, distribution: "normal" },
        plunger_acceleration: { value_ratio: 0, u_ratio: 0.01, distribution: "rectangular" },
        detector_offset: { value_ms: 0, u_ms: 0.25, distribution: "rectangular" },
        input_path: { value_ms: 0, u_ms: 0.15, distribution: "rectangular" },
      },
    },
  ],
};

const clockTerms = (u: number): Raw => ({
  frame_clock: { value_ratio: 1, u_ratio: 0.00001, distribution: "normal" },
  input_path: { value_ms: 0, u_ms: u, distribution: "rectangular" },
});

export const injectorRaw: Raw = {
  id: "injector-1",
  kind: "injector",
  description: "Relay across the contact of one key, and a timer of 1 µs on the host's port",
  software: "Port timer 0.8",
  calibrations: [{ date: "2026-01-12", due: "2027-01-12", certificate: "C-26-003", terms: clockTerms(0.05) }],
};

export const lightRaw: Raw = {
  id: "light-1",
  kind: "light",
  description: "Foil on the keycap, a driven plunger, and a light on the host's port",
  software: "Port timer 0.8",
  calibrations: [
    {
      date: "2026-01-12",
      due: "2027-01-12",
      certificate: "C-26-004",
      terms: {
        ...clockTerms(0.05),
        plunger_speed: { value_mm_per_s: 120, u_mm_per_s: 1.2, distribution: "normal" },
        plunger_acceleration: { value_ratio: 0, u_ratio: 0.01, distribution: "rectangular" },
        detector_offset: { value_ms: 0, u_ms: 0.05, distribution: "rectangular" },
      },
    },
  ],
};
