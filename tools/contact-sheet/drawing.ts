import * as Plot from "@observablehq/plot";
import { JSDOM } from "jsdom";

/** A document for drawing; one a run is enough. */
export function drawingDocument(): Document {
  return new JSDOM("").window.document;
}

export interface PanelOptions {
  readonly document: Document;
  readonly width: number;
  readonly height: number;
  readonly xDomain: readonly [number, number];
  readonly yDomain?: readonly [number, number];
  /** Distances of grid lines, mm: labelled ones and fine ones. */
  readonly xTick: number;
  readonly xFine?: number;
  readonly title: string;
  /** A second, smaller line under the title. */
  readonly subtitle?: string;
  readonly marks: readonly Plot.Markish[];
}

/** A panel of force (cN) over displacement (mm), as SVG text. */
export function renderPanel(options: PanelOptions): string {
  const [from, to] = options.xDomain;
  const fine = options.xFine === undefined ? [] : multiples(from, to, options.xFine);
  const figure = Plot.plot({
    document: options.document,
    width: options.width,
    height: options.height,
    marginTop: options.subtitle === undefined ? 22 : 36,
    marginLeft: 36,
    marginRight: 8,
    marginBottom: 24,
    clip: true,
    x: { domain: [...options.xDomain], ticks: multiples(from, to, options.xTick), label: null },
    y: { ...(options.yDomain === undefined ? {} : { domain: [...options.yDomain] }), grid: true, label: null },
    marks: [
      Plot.ruleX(fine, { stroke: "#ddd", strokeWidth: 0.6 }),
      Plot.ruleX(multiples(from, to, options.xTick), { stroke: "#aaa", strokeWidth: 0.8 }),
      ...options.marks,
      Plot.text([options.title], {
        frameAnchor: "top-left",
        dy: options.subtitle === undefined ? -16 : -32,
        fontWeight: "bold",
        fontSize: 12,
        clip: false,
      }),
      Plot.text(options.subtitle === undefined ? [] : [options.subtitle], {
        frameAnchor: "top-left",
        dy: -16,
        fontSize: 11,
        clip: false,
      }),
    ],
  });
  return figure.outerHTML;
}

function multiples(from: number, to: number, step: number): number[] {
  const first = Math.ceil(from / step - 1e-9);
  const last = Math.floor(to / step + 1e-9);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, index) =>
    Number(((first + index) * step).toFixed(6)),
  );
}
