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
 * @returns one box a label, in the same order
 */
export function placeLabels(
  requests: readonly LabelRequest[],
  obstacles: readonly (readonly [number, number])[],
  frame: Box,
  faint: readonly (readonly [number, number])[] = [],
): readonly Box[] {
  const placed: Box[] = [];
  const leaders: (readonly [number, number])[] = [];
  for (const request of requests) {
    let best: { box: Box; cost: number } | undefined;
    for (const candidate of candidates(request)) {
      const crossed = leaderPoints(request, candidate.box).filter((point) =>
        placed.some((box) => isInside(point, box)),
      );
      const cost =
        candidate.cost +
        coverCost(candidate.box, placed, frame) +
        2 * obstacles.filter((point) => isInside(point, candidate.box)).length +
        0.5 * faint.filter((point) => isInside(point, candidate.box)).length +
        8 * crossed.length +
        8 * leaders.filter((point) => isInside(point, candidate.box)).length;
      if (best === undefined || cost < best.cost - 1e-9) best = { box: candidate.box, cost };
    }
    placed.push(best!.box);
    leaders.push(...leaderPoints(request, best!.box));
  }
  return placed;
}

/** The place on a box that is nearest to a point: where a line from the point meets it. */
export function nearestOn(point: { readonly x: number; readonly y: number }, box: Box): readonly [number, number] {
  return [
    Math.min(Math.max(point.x, box.x), box.x + box.width),
    Math.min(Math.max(point.y, box.y), box.y + box.height),
  ];
}

function leaderPoints(request: LabelRequest, box: Box): readonly (readonly [number, number])[] {
  const [x, y] = nearestOn(request, box);
  const steps = Math.floor(Math.hypot(x - request.x, y - request.y) / 4);
  return Array.from(
    { length: steps },
    (_, step) => [request.x + ((x - request.x) * step) / steps, request.y + ((y - request.y) * step) / steps] as const,
  );
}

function isInside([x, y]: readonly [number, number], box: Box): boolean {
  return x > box.x - 2 && x < box.x + box.width + 2 && y > box.y - 2 && y < box.y + box.height + 2;
}

function candidates(request: LabelRequest): readonly { box: Box; cost: number }[] {
  const order = request.prefer ?? (Object.keys(directions) as Direction[]);
  const names = [...order, ...(Object.keys(directions) as Direction[]).filter((name) => !order.includes(name))];
  return distancesPx.flatMap((distance, far) =>
    names.map((name, rank) => {
      const [dx, dy] = directions[name];
      const x = request.x + dx * distance - (dx === 0 ? request.width / 2 : dx < 0 ? request.width : 0);
      const y = request.y + dy * distance - (dy === 0 ? request.height / 2 : dy < 0 ? request.height : 0);
      return { box: { x, y, width: request.width, height: request.height }, cost: far * 3 + rank * 0.8 };
    }),
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
