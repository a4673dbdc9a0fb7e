import { sizes } from "../theme.js";
import { safeText } from "./safe-text.js";

/** What a drawing may consist of; nothing that loads, links or runs. */
const allowedElements = new Set([
  "svg",
  "g",
  "title",
  "desc",
  "defs",
  "path",
  "line",
  "rect",
  "circle",
  "ellipse",
  "polygon",
  "polyline",
  "text",
  "tspan",
  "clipPath",
  "marker",
  "linearGradient",
  "stop",
  "use",
]);

const numericAttributes = new Set([
  ...["d", "transform", "points", "viewBox", "x", "y", "x1", "x2", "y1", "y2", "cx", "cy", "r", "rx", "ry", "dx", "dy"],
  ...["width", "height", "stroke-width", "stroke-dasharray", "stroke-dashoffset", "stroke-miterlimit", "font-size"],
  ...["fill-opacity", "stroke-opacity", "opacity", "offset", "refX", "refY", "markerWidth", "markerHeight"],
]);

/** Attributes of the drawing library that say nothing inside an image with a name of its own, or that a strict CSP bars. */
const droppedAttributes = new Set(["style", "class", "aria-label", "aria-hidden", "aria-description", "font-family"]);

const decimal = /-?\d*\.?\d+(?:e[-+]?\d+)?/gi;

/**
 * Gives a drawing the one form in which it is published: ids by order of appearance below `figureId`, no style sheets,
 * style attributes or classes, numbers to 0.01 px, text without control characters. So the same chart has the same bytes
 * whatever was drawn before it. Works in place.
 *
 * @throws RangeError where the drawing holds an element that loads, links or runs, an event handler, or an address that
 *   is not a fragment of the drawing itself
 */
export function normalise(svg: SVGSVGElement, figureId: string): void {
  for (const style of svg.querySelectorAll("style")) style.remove();
  const elements = [svg, ...svg.querySelectorAll("*")];
  const names = new Map<string, string>();
  for (const element of elements) {
    refuseForeign(element);
    const id = element.getAttribute("id");
    if (id !== null && !names.has(id)) names.set(id, `${figureId}-${names.size + 1}`);
  }
  for (const element of elements) {
    for (const { name, value } of [...element.attributes]) {
      if (droppedAttributes.has(name)) element.removeAttribute(name);
      else element.setAttribute(name, cleanAttribute(name, value, names));
    }
    for (const node of element.childNodes) {
      if (node.nodeType === node.TEXT_NODE) node.nodeValue = safeText(node.nodeValue ?? "");
    }
  }
  for (const group of [...svg.querySelectorAll("g")].reverse()) if (group.childNodes.length === 0) group.remove();
  for (const name of ["fill", "text-anchor"]) if (!svg.hasAttribute(name)) svg.setAttribute(name, defaults[name]!);
  svg.setAttribute("class", "figure-drawing");
  svg.setAttribute("font-size", String(sizes.textPx));
}

const defaults: Readonly<Record<string, string>> = { fill: "currentColor", "text-anchor": "middle" };

/** A number to 0.01, without trailing zeros or a negative zero. */
export function roundPx(value: number): string {
  return String(Math.round(value * 100) / 100 + 0);
}

function refuseForeign(element: Element): void {
  if (!allowedElements.has(element.localName)) {
    throw new RangeError(`a drawing may not hold <${element.localName}>: a figure loads, links and runs nothing`);
  }
  for (const { name, value } of element.attributes) {
    const address = name.endsWith("href") ? value : /url\(\s*["']?([^"')]*)/i.exec(value)?.[1];
    if (name.startsWith("on") || (address !== undefined && !address.startsWith("#"))) {
      throw new RangeError(`a drawing may not hold ${name}="${value}": a figure loads, links and runs nothing`);
    }
  }
}

function cleanAttribute(name: string, value: string, names: ReadonlyMap<string, string>): string {
  if (name === "id") return names.get(value)!;
  if (name.endsWith("href")) return `#${names.get(value.slice(1)) ?? value.slice(1)}`;
  if (name === "aria-labelledby") {
    return value
      .split(" ")
      .map((id) => names.get(id) ?? id)
      .join(" ");
  }
  if (numericAttributes.has(name)) return value.replace(decimal, (number) => roundPx(Number(number)));
  return value.replace(/url\(#([^)]*)\)/g, (_, id: string) => `url(#${names.get(id) ?? id})`);
}
