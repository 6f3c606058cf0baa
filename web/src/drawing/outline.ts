// Outlines as a maker edits them: knots with handles, in mm, x out from the spine, z up from the foot. Values are never
// changed in place.
import svgpath from 'svgpath';
import { put } from './lists';

export interface Spot {
  x: number;
  z: number;
}

/** `before` and `after` are the ends of the handles; where neither neighbour has one the line between is straight. */
export interface Knot extends Spot {
  before?: Spot;
  after?: Spot;
}

/** Closed: a cut-out, the last knot is joined to the first. Open: the silhouette, from the foot to the top. */
export interface Contour {
  knots: Knot[];
  closed: boolean;
  /** The edge of a fan: about its centre, on both sides of it, without a spine. */
  free?: true;
}

/** The first contour is the silhouette, the others are cut-outs. */
export type Outline = Contour[];

export type Units = 'mm' | 'in';

export const MM_PER_INCH = 25.4;
export const mmPer = (units: Units): number => (units === 'in' ? MM_PER_INCH : 1);

/** Nearer than this two places are one, mm: far below what a blade can follow. */
const SAME = 1e-6;

export const distance = (a: Spot, b: Spot): number => Math.hypot(a.x - b.x, a.z - b.z);

class Reading {
  readonly contours: Outline = [];
  #knots: Knot[] = [];
  readonly #mm: number;

  constructor(mm: number) {
    this.#mm = mm;
  }

  spot(x: number, z: number): Spot {
    return { x: x * this.#mm, z: z * this.#mm };
  }

  get here(): Knot {
    return this.#knots.at(-1) ?? { x: 0, z: 0 };
  }

  move(to: Spot): void {
    this.#end(false);
    this.#knots = [to];
  }

  line(to: Spot): void {
    if (distance(this.here, to) > SAME) this.#knots.push(to);
  }

  curve(c1: Spot, c2: Spot, to: Spot): void {
    const from = this.here;
    if (distance(c1, from) > SAME) from.after = c1;
    const knot: Knot = { ...to };
    if (distance(c2, to) > SAME) knot.before = c2;
    this.#knots.push(knot);
  }

  close(): void {
    const start = this.#knots[0];
    this.#end(true);
    if (start) this.#knots = [{ x: start.x, z: start.z }];
  }

  finish(): Outline {
    this.#end(false);
    return this.contours;
  }

  #end(closed: boolean): void {
    const knots = this.#knots;
    this.#knots = [];
    const first = knots[0];
    const last = knots.at(-1);
    // A lone move draws nothing, except as the very beginning of an outline.
    if (!first || !last || (knots.length < 2 && this.contours.length > 0)) return;
    if (closed && knots.length > 2 && distance(first, last) < 1e-3) {
      if (last.before) first.before = last.before;
      knots.pop();
    }
    this.contours.push({ knots, closed });
  }
}

/** The silhouette stands open, from foot to top, however it was written. */
function upright(contour: Contour): Contour {
  const first = contour.knots[0];
  const last = contour.knots.at(-1);
  const knots = first && last && last !== first && last.z < first.z && last.x < SAME ? reversed(contour.knots) : contour.knots;
  return { knots, closed: false };
}

function reversed(knots: Knot[]): Knot[] {
  return knots
    .map(({ x, z, before, after }) => ({ x, z, ...(after ? { before: after } : {}), ...(before ? { after: before } : {}) }))
    .reverse();
}

/**
 * Reads path data (SVG 2, section 9.3) in `units`; null when it is not path data. Nothing is checked beyond that. `free`:
 * the edge of a fan.
 */
export function readOutline(path: string, units: Units, free = false): Outline | null {
  const data = svgpath(path).abs().unshort().unarc();
  // Its types leave the fault out.
  if ((data as unknown as { err: string }).err) return null;
  const reading = new Reading(mmPer(units));
  data.iterate((segment, _index, x, y) => {
    const n = segment.slice(1) as number[];
    const at = (i: number) => reading.spot(n[i] ?? 0, n[i + 1] ?? 0);
    const here = reading.spot(x, y);
    if (segment[0] === 'M') reading.move(at(0));
    else if (segment[0] === 'L') reading.line(at(0));
    else if (segment[0] === 'H') reading.line({ ...at(0), z: here.z });
    else if (segment[0] === 'V') reading.line({ x: here.x, z: at(0).x });
    else if (segment[0] === 'C') reading.curve(at(0), at(2), at(4));
    else if (segment[0] === 'Q') reading.curve(toThird(here, at(0)), toThird(at(2), at(0)), at(2));
    else if (segment[0] === 'Z') reading.close();
  });
  const contours = reading.finish();
  if (free) return contours.map((contour) => ({ ...contour, free: true }));
  return contours.map((contour, index) => (index === 0 ? upright(contour) : contour));
}

/** A parabola's control spot serves both of a cubic's: two thirds of the way to it. */
const toThird = (from: Spot, control: Spot): Spot => ({
  x: from.x + ((control.x - from.x) * 2) / 3,
  z: from.z + ((control.z - from.z) * 2) / 3,
});

/** A thousandth of a mm, or a ten-thousandth of an inch: finer than paper can be cut. */
const decimals = (units: Units): number => (units === 'in' ? 4 : 3);

export function inUnits(mm: number, units: Units): number {
  const scale = 10 ** decimals(units);
  return Math.round((mm / mmPer(units)) * scale) / scale + 0;
}

export function writeOutline(outline: Outline, units: Units): string {
  const spot = ({ x, z }: Spot) => `${inUnits(x, units)} ${inUnits(z, units)}`;
  const line = (from: Knot, to: Knot) =>
    from.after || to.before ? `C ${spot(from.after ?? from)} ${spot(to.before ?? to)} ${spot(to)}` : `L ${spot(to)}`;
  return outline
    .map(({ knots, closed }) => {
      const parts = knots.map((knot, i) => (i === 0 ? `M ${spot(knot)}` : line(knots[i - 1] as Knot, knot)));
      const first = knots[0];
      const last = knots.at(-1);
      if (closed && first && last && (last.after || first.before)) parts.push(line(last, first));
      return closed ? [...parts, 'Z'].join(' ') : parts.join(' ');
    })
    .join(' ');
}

/** Beginnings and ends of the segments, as pairs of knots. */
export function segmentsOf({ knots, closed }: Contour): [Knot, Knot][] {
  const pairs = knots.slice(1).map((knot, i): [Knot, Knot] => [knots[i] as Knot, knot]);
  const first = knots[0];
  const last = knots.at(-1);
  if (closed && first && last && knots.length > 1) pairs.push([last, first]);
  return pairs;
}

export const isStraight = ([from, to]: [Knot, Knot]): boolean => !from.after && !to.before;

const between = (a: Spot, b: Spot, t: number): Spot => ({ x: a.x + (b.x - a.x) * t, z: a.z + (b.z - a.z) * t });

/** de Casteljau's construction: the spot at `t`, 0..1, and the handles of both parts. */
function divided([from, to]: [Knot, Knot], t: number) {
  const a = from.after ?? from;
  const b = to.before ?? to;
  const [p, q, r] = [between(from, a, t), between(a, b, t), between(b, to, t)];
  const [u, v] = [between(p, q, t), between(q, r, t)];
  return { spot: between(u, v, t), firstAfter: p, before: u, after: v, lastBefore: r };
}

export const spotAt = (segment: [Knot, Knot], t: number): Spot =>
  isStraight(segment) ? between(segment[0], segment[1], t) : divided(segment, t).spot;

/** Spots along a contour, `steps` to a curved segment; the first is not repeated at the end of a closed one. */
export function flattened(contour: Contour, steps = 24): Spot[] {
  const spots: Spot[] = contour.knots[0] ? [{ x: contour.knots[0].x, z: contour.knots[0].z }] : [];
  for (const segment of segmentsOf(contour)) {
    const count = isStraight(segment) ? 1 : steps;
    for (let i = 1; i <= count; i += 1) spots.push(spotAt(segment, i / count));
  }
  if (contour.closed) spots.pop();
  return spots;
}

export interface Box {
  left: number;
  right: number;
  low: number;
  high: number;
}

export function boxOf(spots: Spot[]): Box | null {
  if (spots.length === 0) return null;
  const box = { left: Infinity, right: -Infinity, low: Infinity, high: -Infinity };
  for (const { x, z } of spots) {
    box.left = Math.min(box.left, x);
    box.right = Math.max(box.right, x);
    box.low = Math.min(box.low, z);
    box.high = Math.max(box.high, z);
  }
  return box;
}

/** Height of the silhouette as drawn, mm; 0 while there is none. */
export function heightOf(outline: Outline): number {
  const box = outline[0] ? boxOf(flattened(outline[0], 64)) : null;
  return box ? box.high - box.low : 0;
}

/** How far out the silhouette reaches at height `z` when one walks out from `fromX`; null where there is no paper. */
export function reachAt(outline: Outline, fromX: number, z: number): number | null {
  let nearest: number | null = null;
  const spots = outline[0] ? flattened(outline[0]) : [];
  for (let i = 1; i < spots.length; i += 1) {
    const [a, b] = [spots[i - 1] as Spot, spots[i] as Spot];
    if (a.z > z === b.z > z) continue;
    const x = a.x + ((z - a.z) / (b.z - a.z)) * (b.x - a.x);
    if (x > fromX && (nearest === null || x < nearest)) nearest = x;
  }
  return nearest;
}

export interface OnContour {
  contour: number;
  /** Of the knot the segment begins at. */
  segment: number;
  t: number;
  spot: Spot;
  distance: number;
}

/** The place on any of the lines that is nearest to `spot`. */
export function nearestOn(outline: Outline, spot: Spot): OnContour | null {
  let best: OnContour | null = null;
  outline.forEach((contour, index) =>
    segmentsOf(contour).forEach((segment, i) => {
      for (const t of nearestShares(segment, spot)) {
        const at = spotAt(segment, t);
        const far = distance(at, spot);
        if (!best || far < best.distance) best = { contour: index, segment: i, t, spot: at, distance: far };
      }
    }),
  );
  return best;
}

/** Samples a segment, then halves the step around the best sample until it is exact to 1/65536. */
function nearestShares(segment: [Knot, Knot], spot: Spot): number[] {
  const far = (t: number) => distance(spotAt(segment, t), spot);
  let best = 0;
  for (let i = 1; i <= 16; i += 1) if (far(i / 16) < far(best)) best = i / 16;
  for (let step = 1 / 32; step >= 1 / 65536; step /= 2)
    for (const t of [best - step, best + step]) if (t >= 0 && t <= 1 && far(t) < far(best)) best = t;
  return [best];
}

/** The same line with one more knot on it, and where that knot stands in its contour. */
export function withKnotOn(outline: Outline, at: Pick<OnContour, 'contour' | 'segment' | 't'>): { outline: Outline; knot: number } {
  const contour = outline[at.contour] as Contour;
  const knots = contour.knots.slice();
  const next = (at.segment + 1) % knots.length;
  const [from, to] = [knots[at.segment] as Knot, knots[next] as Knot];
  if (isStraight([from, to])) knots.splice(at.segment + 1, 0, spotAt([from, to], at.t));
  else {
    const parts = divided([from, to], at.t);
    knots[at.segment] = { ...from, after: parts.firstAfter };
    knots[next] = { ...to, before: parts.lastBefore };
    knots.splice(at.segment + 1, 0, { ...parts.spot, before: parts.before, after: parts.after });
  }
  return { outline: put(outline, at.contour, { ...contour, knots }), knot: at.segment + 1 };
}
