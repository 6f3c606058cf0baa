// What a maker does to an outline, each as old outline -> new outline.
import { put, without } from './lists';
import { distance, type Contour, type Knot, type Outline, type Spot } from './outline';

export interface KnotPlace {
  contour: number;
  knot: number;
}

export type HandleSide = 'before' | 'after';

const knotOf = (outline: Outline, at: KnotPlace): Knot | undefined => outline[at.contour]?.knots[at.knot];

function withKnot(outline: Outline, at: KnotPlace, knot: Knot): Outline {
  const contour = outline[at.contour] as Contour;
  return put(outline, at.contour, { ...contour, knots: put(contour.knots, at.knot, knot) });
}

const moved = (spot: Spot, by: Spot): Spot => ({ x: spot.x + by.x, z: spot.z + by.z });

/** Foot and top of the silhouette stay on the spine. */
export function isOnSpine(outline: Outline, at: KnotPlace): boolean {
  const contour = outline[at.contour];
  return at.contour === 0 && !!contour && !contour.closed && !contour.free && (at.knot === 0 || at.knot === contour.knots.length - 1);
}

/** Moves a knot to `to`; its handles go with it. No paper is left of the spine. */
export function movedKnot(outline: Outline, at: KnotPlace, to: Spot): Outline {
  const knot = knotOf(outline, at);
  if (!knot) return outline;
  const inPaper = outline[at.contour]?.free ? to.x : Math.max(0, to.x);
  const x = isOnSpine(outline, at) && Math.abs(knot.x) < 0.01 ? 0 : inPaper;
  const by = { x: x - knot.x, z: to.z - knot.z };
  return withKnot(outline, at, {
    ...moved(knot, by),
    ...(knot.before ? { before: moved(knot.before, by) } : {}),
    ...(knot.after ? { after: moved(knot.after, by) } : {}),
  });
}

/** Both handles on one line through the knot, to half a degree. */
export function isSmooth(knot: Knot): boolean {
  const { before, after } = knot;
  if (!before || !after) return false;
  const [a, b] = [distance(before, knot), distance(after, knot)];
  const cross = (knot.x - before.x) * (after.z - knot.z) - (knot.z - before.z) * (after.x - knot.x);
  const along = (knot.x - before.x) * (after.x - knot.x) + (knot.z - before.z) * (after.z - knot.z);
  return along > 0 && Math.abs(cross) < a * b * 0.0087;
}

const other = (side: HandleSide): HandleSide => (side === 'before' ? 'after' : 'before');

/** Moves the end of a handle; where the line runs smoothly through the knot the other handle turns with it. */
export function movedHandle(outline: Outline, at: KnotPlace, side: HandleSide, to: Spot, breaking = false): Outline {
  const knot = knotOf(outline, at);
  if (!knot) return outline;
  const next: Knot = { ...knot, [side]: to };
  const opposite = knot[other(side)];
  const length = distance(to, knot);
  if (!breaking && opposite && isSmooth(knot) && length > 1e-6) {
    const reach = distance(opposite, knot) / length;
    next[other(side)] = { x: knot.x - (to.x - knot.x) * reach, z: knot.z - (to.z - knot.z) * reach };
  }
  return withKnot(outline, at, next);
}

export function neighbours(outline: Outline, at: KnotPlace): { before?: Knot; after?: Knot } {
  const contour = outline[at.contour];
  if (!contour) return {};
  const { knots, closed } = contour;
  const before = knots[closed ? (at.knot + knots.length - 1) % knots.length : at.knot - 1];
  const after = knots[closed ? (at.knot + 1) % knots.length : at.knot + 1];
  return { ...(before ? { before } : {}), ...(after ? { after } : {}) };
}

const towards = (from: Spot, to: Spot, length: number): Spot => {
  const far = distance(from, to) || 1;
  return { x: from.x + ((to.x - from.x) / far) * length, z: from.z + ((to.z - from.z) / far) * length };
};

/** Lets the line run smoothly through a knot: its handles lie along the way from one neighbour to the other. */
export function smoothed(outline: Outline, at: KnotPlace): Outline {
  const knot = knotOf(outline, at);
  const { before, after } = neighbours(outline, at);
  if (!knot || !before || !after) return outline;
  const way = distance(before, after) || 1;
  const along = { x: (after.x - before.x) / way, z: (after.z - before.z) / way };
  const reach = (handle: Spot | undefined, neighbour: Spot) => (handle ? distance(handle, knot) : distance(neighbour, knot) / 3);
  return withKnot(outline, at, {
    x: knot.x,
    z: knot.z,
    before: moved(knot, { x: -along.x * reach(knot.before, before), z: -along.z * reach(knot.before, before) }),
    after: moved(knot, { x: along.x * reach(knot.after, after), z: along.z * reach(knot.after, after) }),
  });
}

/** Makes a corner: each handle points at the neighbour on its side. */
export function cornered(outline: Outline, at: KnotPlace): Outline {
  const knot = knotOf(outline, at);
  const { before, after } = neighbours(outline, at);
  if (!knot) return outline;
  return withKnot(outline, at, {
    x: knot.x,
    z: knot.z,
    ...(knot.before && before ? { before: towards(knot, before, distance(knot.before, knot)) } : {}),
    ...(knot.after && after ? { after: towards(knot, after, distance(knot.after, knot)) } : {}),
  });
}

/** Fewest knots that make a line: foot and top, or a three-cornered hole. */
const fewest = (contour: Contour): number => (contour.closed ? 3 : 2);

export const canRemove = (outline: Outline, at: KnotPlace): boolean => {
  const contour = outline[at.contour];
  return !!contour && contour.knots.length > fewest(contour) && !isOnSpine(outline, at);
};

export function removedKnot(outline: Outline, at: KnotPlace): Outline {
  if (!canRemove(outline, at)) return outline;
  const contour = outline[at.contour] as Contour;
  return put(outline, at.contour, { ...contour, knots: without(contour.knots, at.knot) });
}

/** Straightens both sides of a knot. */
export function straightened(outline: Outline, at: KnotPlace): Outline {
  const knot = knotOf(outline, at);
  return knot ? withKnot(outline, at, { x: knot.x, z: knot.z }) : outline;
}

/** An oval cut-out around `middle`, mm. Handles of a quarter circle reach 0.5523 of the radius (least radial error). */
export function withCutOut(outline: Outline, middle: Spot, wide: number, high: number): Outline {
  const [a, b] = [wide / 2, high / 2];
  const k = 0.5523;
  const at = (x: number, z: number): Spot => ({ x: middle.x + x * a, z: middle.z + z * b });
  const knots: Knot[] = [
    { ...at(1, 0), before: at(1, k), after: at(1, -k) },
    { ...at(0, -1), before: at(k, -1), after: at(-k, -1) },
    { ...at(-1, 0), before: at(-1, -k), after: at(-1, k) },
    { ...at(0, 1), before: at(-k, 1), after: at(k, 1) },
  ];
  return [...outline, { knots, closed: true }];
}

export const withoutContour = (outline: Outline, contour: number): Outline => without(outline, contour);

/** Moves a whole contour. */
export function movedContour(outline: Outline, contour: number, by: Spot): Outline {
  const old = outline[contour];
  if (!old) return outline;
  const knots = old.knots.map((knot) => ({
    ...moved(knot, by),
    ...(knot.before ? { before: moved(knot.before, by) } : {}),
    ...(knot.after ? { after: moved(knot.after, by) } : {}),
  }));
  return put(outline, contour, { ...old, knots });
}

/** Lays one more knot at the end of the silhouette that is being drawn. */
export function laidKnot(outline: Outline, knot: Knot): Outline {
  const first = outline[0] ?? { knots: [], closed: false };
  return [{ ...first, knots: [...first.knots, knot] }, ...outline.slice(1)];
}

/** Being drawn: it has not come back to the spine yet. */
export function isUnfinished(outline: Outline): boolean {
  if (outline[0]?.free) return false;
  const knots = outline[0]?.knots ?? [];
  const last = knots.at(-1);
  return !last || knots.length < 2 || last.x > 0.01;
}
