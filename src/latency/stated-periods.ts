import type { LatencyContext } from "./context.js";
import type { PeriodName } from "./model.js";

/** A period of the chain and its length as the record states it; null where it does not. */
export interface StatedPeriod {
  readonly period: PeriodName;
  readonly label: string;
  readonly periodMs: number | null;
}

/**
 * The periods against which the presses of one connection can be locked. Polling: the measured rate, else the one set
 * ("1000 Hz", "8 kHz"). On film also the display's refresh, the application's frame and the camera's frame; the first two
 * only where a screen is observed.
 *
 * @param cameraFrameMs frame time of the film; null for timings
 */
export function statedPeriods(
  connection: string,
  cameraFrameMs: number | null,
  context: LatencyContext,
): readonly StatedPeriod[] {
  const settings = context.settings[connection];
  const polling = settings?.pollingMeasured?.value ?? parseRateHz(settings?.pollingSet ?? "");
  const periods: StatedPeriod[] = [
    { period: "polling", label: "polling interval", periodMs: periodOf(polling) },
    { period: "scan", label: "scan interval", periodMs: periodOf(context.scanRate?.value) },
  ];
  if (context.method.observes !== "film") return periods;
  return [
    ...periods,
    { period: "display_refresh", label: "display refresh", periodMs: periodOf(context.refreshRate?.value) },
    { period: "application_frame", label: "application frame", periodMs: periodOf(context.applicationRate?.value) },
    { period: "camera_frame", label: "camera frame", periodMs: cameraFrameMs },
  ];
}

/** Rate in Hz from a setting's text such as "1000 Hz" or "8 kHz"; null where the text is anything else. */
export function parseRateHz(text: string): number | null {
  const match = /^\s*(\d+(?:\.\d+)?)\s*(k?)Hz\s*$/i.exec(text);
  if (match === null) return null;
  return Number(match[1]) * (match[2] === "" ? 1 : 1000);
}

function periodOf(rateHz: number | null | undefined): number | null {
  return rateHz !== null && rateHz !== undefined && rateHz > 0 && Number.isFinite(rateHz) ? 1000 / rateHz : null;
}
