import type * as Plot from "@observablehq/plot";
import { colours, sizes } from "../theme.js";

/** What a drawing function is given beside the scales. */
export type DrawContext = Parameters<Plot.RenderFunction>[4];

/** Makes an SVG element in the document of the drawing. */
export function svgElement(
  context: DrawContext,
  name: string,
  attributes: Readonly<Record<string, string | number | undefined>>,
  children: readonly (SVGElement | string)[] = [],
): SVGElement {
  const made = context.document.createElementNS("http://www.w3.org/2000/svg", name) as SVGElement;
  for (const [key, value] of Object.entries(attributes)) if (value !== undefined) made.setAttribute(key, String(value));
  made.append(...children);
  return made;
}

export interface TextAttributes {
  readonly anchor?: "start" | "middle" | "end";
  readonly fill?: string;
  readonly sizePx?: number;
  readonly weight?: "bold";
  readonly italic?: boolean;
  /** A band of paper around the letters, so that lines below do not cross them. */
  readonly halo?: boolean;
}

/** A line of text whose vertical middle lies at y. */
export function svgText(
  context: DrawContext,
  x: number,
  y: number,
  text: string,
  { anchor = "start", fill = colours.ink, sizePx, weight, italic, halo }: TextAttributes = {},
): SVGElement {
  const size = sizePx ?? sizes.textPx;
  return svgElement(
    context,
    "text",
    {
      x,
      y: y + size * 0.35,
      "text-anchor": anchor === "middle" ? undefined : anchor,
      fill,
      "font-size": sizePx,
      "font-weight": weight,
      "font-style": italic === true ? "italic" : undefined,
      ...(halo === true
        ? { stroke: colours.paper, "stroke-width": 3.5, "stroke-linejoin": "round", "paint-order": "stroke" }
        : {}),
    },
    [text],
  );
}

/** A position on a scale of numbers. @throws RangeError where the chart has no such scale */
export function positionOn(scale: ((value: never) => unknown) | undefined, value: number): number {
  if (scale === undefined) throw new RangeError("the chart has no scale for this axis");
  return Number((scale as (value: number) => unknown)(value));
}
