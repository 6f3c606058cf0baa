// Glue rows on the drawing: where they lie, and what moving, adding and taking away means for the design file.
import type { Form, Json } from '../answers';
import { valueAt, type Wish } from '../document/change';
import { wishFor } from '../document/wishes';
import { heightOf, inUnits, mmPer, reachAt, type Outline, type Spot, type Units } from './outline';

export type Side = 'inside' | 'between';

/** Centre line and width in mm of the drawing (not of the size). */
export interface Row {
  side: Side;
  from: Spot;
  to: Spot;
  width: number;
}

export interface Rows {
  rows: Row[];
  /** One by one in the file, rather than generated. */
  listed: boolean;
  /** JSON pointer of the rows that hold for the size. */
  at: string;
  /** mm of the size for a mm of the drawing. */
  scale: number;
}

const isRow = (value: Json): value is { side: Side; from: [number, number]; to: [number, number]; width: number } =>
  typeof value === 'object' && value !== null && 'from' in value && 'to' in value && Array.isArray(value['from']) && Array.isArray(value['to']);

/** JSON pointer of the named size, or '' when the file lists none. */
export function sizeAt(document: Json, name: string): string {
  const sizes = valueAt(document, '/sizes');
  const index = Array.isArray(sizes) ? sizes.findIndex((_, i) => valueAt(sizes, `/${i}/name`) === name) : -1;
  return index < 0 ? '' : `/sizes/${index}`;
}

export function scaleOf(document: Json, size: string, outline: Outline, units: Units): number {
  const height = valueAt(document, `${sizeAt(document, size)}/height`);
  const drawn = heightOf(outline);
  return typeof height === 'number' && drawn > 0 ? (height * mmPer(units)) / drawn : 1;
}

function listedRows(list: Json[], units: Units, scale: number): Row[] {
  const mm = mmPer(units);
  return list.filter(isRow).map(({ side, from, to, width }) => ({
    side: side === 'between' ? 'between' : 'inside',
    from: { x: from[0] * mm, z: from[1] * mm },
    to: { x: to[0] * mm, z: to[1] * mm },
    width: (width * mm) / scale,
  }));
}

function generatedRows(form: Form | null, scale: number): Row[] {
  const spot = ([x, z]: [number, number]): Spot => ({ x: x / scale, z: z / scale });
  return (form?.rows ?? []).map((row) => {
    const [from, to] = form?.shows === 'opened' ? row.opened : row.flat;
    return { side: row.side, from: spot(from), to: spot(to), width: row.width / scale };
  });
}

/** The rows of a size: from the document where it lists them, else as the server placed them on the last form. */
export function rowsOf(document: Json, size: string, form: Form | null, outline: Outline, units: Units): Rows {
  const own = sizeAt(document, size);
  const at = own !== '' && valueAt(document, `${own}/rows`) !== undefined ? `${own}/rows` : '/rows';
  const scale = scaleOf(document, size, outline, units);
  const value = valueAt(document, at);
  const listed = Array.isArray(value);
  return { rows: listed ? listedRows(value, units, scale) : generatedRows(form, scale), listed, at, scale };
}

/** A row moved up by `rise`; where it ended near the edge it keeps that distance at its new height. */
export function risen(row: Row, rise: number, outline: Outline): Row {
  const reachWas = reachAt(outline, row.from.x, row.to.z);
  const reachIs = reachAt(outline, row.from.x, row.to.z + rise);
  const gap = reachWas === null ? null : reachWas - row.to.x;
  const outer = gap === null || reachIs === null || gap < 0 ? row.to.x : Math.max(row.from.x + 1.5, reachIs - gap);
  return { ...row, from: { x: row.from.x, z: row.from.z + rise }, to: { x: outer, z: row.to.z + rise } };
}

/** Rows as the design file lists them. */
export function asListed(rows: Row[], units: Units, scale: number): Json {
  const place = ({ x, z }: Spot): Json => [inUnits(x, units), inUnits(z, units)];
  return rows.map(({ side, from, to, width }) => ({
    side, from: place(from), to: place(to), width: inUnits(width * scale, units),
  }));
}

export const heightOfRow = (row: Row): number => (row.from.z + row.to.z) / 2;

const byHeight = (rows: Row[]): Row[] => rows.slice().sort((a, b) => heightOfRow(a) - heightOfRow(b));

/** How many generated rows stand as far apart as they do when row `index` is pulled up by `rise`, 2 to 200. */
export function countPulled(rows: Row[], index: number, rise: number): number {
  const heights = byHeight(rows).map(heightOfRow);
  const [low, high] = [heights[0] ?? 0, heights.at(-1) ?? 0];
  const steps = index > 0 ? index : heights.length - 1;
  const pulled = index > 0 ? (heights[index] ?? 0) + rise - low : high - low - rise;
  const spacing = Math.max(0.5, pulled / steps);
  return Math.min(200, Math.max(2, Math.round((high - low) / spacing) + 1));
}

/** Listed rows pulled apart or together evenly: the lowest stays, unless it is the one that is pulled; then all go along. */
export function pulledEvenly(rows: Row[], index: number, rise: number, outline: Outline): Row[] {
  const low = Math.min(...rows.map(heightOfRow));
  const pulled = rows[index];
  if (!pulled) return rows;
  const was = heightOfRow(pulled) - low;
  if (was < 0.01) return rows.map((row) => risen(row, rise, outline));
  const factor = Math.max(0.05, (was + rise) / was);
  return rows.map((row) => risen(row, (heightOfRow(row) - low) * (factor - 1), outline));
}

/** Sets the number of generated rows; rows that place themselves become counted ones. */
export function countWishes(document: Json, at: string, count: number): Wish[] {
  const rows = valueAt(document, at);
  if (rows === 'auto') return [{ at, after: { count } }];
  const look: Wish[] = valueAt(document, `${at}/look`) === undefined ? [] : [{ at: `${at}/look` }];
  return [...look, ...wishFor(document, `${at}/count`, count)];
}

const otherSide = (side: Side): Side => (side === 'inside' ? 'between' : 'inside');

/** One more row in the middle of the widest space between two rows (`above`: of that one and the next). */
export function withRow(rows: Row[], outline: Outline, above: number | null): Row[] {
  const order = byHeight(rows);
  const chosen = above === null ? -1 : order.indexOf(rows[above] as Row);
  let lower = chosen;
  if (lower < 0 || lower > order.length - 2) {
    lower = 0;
    for (let i = 0; i < order.length - 1; i += 1) if (spaceAbove(order, i) > spaceAbove(order, lower)) lower = i;
  }
  const below = order[lower];
  if (!below) return rows;
  const added = risen({ ...below, side: otherSide(below.side) }, spaceAbove(order, lower) / 2, outline);
  return [...order.slice(0, lower + 1), added, ...order.slice(lower + 1)];
}

const spaceAbove = (order: Row[], i: number): number =>
  order[i] && order[i + 1] ? heightOfRow(order[i + 1] as Row) - heightOfRow(order[i] as Row) : 0;

export const turned = (row: Row): Row => ({ ...row, side: otherSide(row.side) });

/** Corners of the glued strip; `width` is measured up the leaf. */
export function stripCorners({ from, to, width }: Row): Spot[] {
  const half = width / 2;
  return [
    { x: from.x, z: from.z - half }, { x: to.x, z: to.z - half }, { x: to.x, z: to.z + half }, { x: from.x, z: from.z + half },
  ];
}
