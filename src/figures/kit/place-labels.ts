/** A box in px: left, top, width, height. */
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** A label to place: the point it names, its size, and the directions it prefers, best first. */
export interface LabelRequest {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly prefer?: readonly Direction[];
  /** Other places that the label may name as well as x, y, best first: further points of one line. */
  readonly elsewhere?: readonly (readonly [number, number])[];
}

/** A label's box, and the point that it names. */
export interface PlacedLabel extends Box {
  readonly namedX: number;
  readonly namedY: number;
}

export type Direction = "n" | "ne" | "e" | "se" | "s" | "sw" | "w" | "nw";

const directions: Readonly<Record<Direction, readonly [number, number]>> = {
  e: [1, 0],
  ne: [0.8, -0.8],
  se: [0.8, 0.8],
  n: [0, -1],
  s: [0, 1],
  w: [-1, 0],
  nw: [-0.8, -0.8],
  sw: [-0.8, 0.8],
};

const distancesPx = [9, 16, 26, 40, 58, 80, 110] as const;

/**
 * Places labels one after the other beside their points, each where it covers least: other labels cost most, then lines
 * and points below, then distance and unwanted directions. The order given is the order of importance.
 *
 * @param requests labels in px
 * @param obstacles points of lines and marks below, dense enough that a label cannot slip between two of them
 * @param faint the same of lines in the background, which a label may cross for a quarter of the cost
 * @param frame where labels must stay
 * @returns one box a label, in the same order, with the point that was chosen for it
 */
export function placeLabels(
  requests: readonly LabelRequest[],
  obstacles: readonly (readonly [number, number])[],
  frame: Box,
  faint: readonly (readonly [number, number])[] = [],
): readonly PlacedLabel[] {
  const placed: PlacedLabel[] = [];
  const leaders: (readonly [number, number])[] = [];
  for (const request of requests) {
    let best: { label: PlacedLabel; cost: number } | undefined;
    for (const { label, cost: own } of candidates(request)) {
      const crossed = leaderPoints(label).filter((point) => placed.some((box) => isInside(point, box)));
      const cost =
        own +
        coverCost(label, placed, frame) +
        3 * obstacles.filter((point) => isInside(point, label)).length +
        0.7 * faint.filter((point) => isInside(point, label)).length +
        8 * crossed.length +
        8 * leaders.filter((point) => isInside(point, label)).length;
      if (best === undefined || cost < best.cost - 1e-9) best = { label, cost };
    }
    placed.push(best!.label);
    leaders.push(...leaderPoints(best!.label));
  }
  return placed;
}

/** Where a line from the named point meets the label's box. */
export function leaderEnd(label: PlacedLabel): readonly [number, number] {
  return [
    Math.min(Math.max(label.namedX, label.x), label.x + label.width),
    Math.min(Math.max(label.namedY, label.y), label.y + label.height),
  ];
}

function leaderPoints(label: PlacedLabel): readonly (readonly [number, number])[] {
  const { namedX, namedY } = label;
  const [x, y] = leaderEnd(label);
  const steps = Math.floor(Math.hypot(x - namedX, y - namedY) / 4);
  return Array.from(
    { length: steps },
    (_, step) => [namedX + ((x - namedX) * step) / steps, namedY + ((y - namedY) * step) / steps] as const,
  );
}

function isInside([x, y]: readonly [number, number], box: Box): boolean {
  return x > box.x - 2 && x < box.x + box.width + 2 && y > box.y - 2 && y < box.y + box.height + 2;
}

function candidates(request: LabelRequest): readonly { label: PlacedLabel; cost: number }[] {
  const { width, height } = request;
  const all = Object.keys(directions) as Direction[];
  const preferred = request.prefer ?? all;
  const names = [...preferred, ...all.filter((name) => !preferred.includes(name))];
  const places = [[request.x, request.y] as const, ...(request.elsewhere ?? [])];
  return places.flatMap(([namedX, namedY], place) =>
    distancesPx.flatMap((distance, far) =>
      names.map((name, rank) => {
        const [dx, dy] = directions[name];
        const x = namedX + dx * distance - (dx === 0 ? width / 2 : dx < 0 ? width : 0);
        const y = namedY + dy * distance - (dy === 0 ? height / 2 : dy < 0 ? height : 0);
        const unwanted = preferred.includes(name) ? 0 : 4;
        return { label: { x, y, width, height, namedX, namedY }, cost: place * 2 + far * 3 + rank * 0.8 + unwanted };
      }),
    ),
  );
}

function coverCost(box: Box, placed: readonly Box[], frame: Box): number {
  let cost = 0;
  for (const other of placed) cost += 2 * overlap(box, other, 3);
  cost += 25 * Math.max(0, frame.x - box.x, box.x + box.width - frame.x - frame.width);
  cost += 25 * Math.max(0, frame.y - box.y, box.y + box.height - frame.y - frame.height);
  return cost;
}

function overlap(a: Box, b: Box, gap: number): number {
  const width = Math.min(a.x + a.width, b.x + b.width) - Math.max(a.x, b.x) + gap;
  const height = Math.min(a.y + a.height, b.y + b.height) - Math.max(a.y, b.y) + gap;
  return width > 0 && height > 0 ? Math.sqrt(width * height) * 10 : 0;
}
