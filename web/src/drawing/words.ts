// Places and things of the drawing in words, as the status line and screen readers give them.
import { lengthIn, writeQuantity } from '../fields/quantity';
import { isOnSpine, isSmooth, type HandleSide, type KnotPlace } from './edits';
import type { Outline, Spot } from './outline';
import { heightOfRow, type Row } from './rows';

type Units = 'mm' | 'in';

export const length = (mm: number, units: Units): string => writeQuantity(Object.is(mm, -0) ? 0 : mm, lengthIn(units));

export const place = (spot: Spot, units: Units): string => `${length(spot.x, units)} out, ${length(spot.z, units)} up`;

export function knotName(outline: Outline, at: KnotPlace, units: Units): string {
  const contour = outline[at.contour];
  const knot = contour?.knots[at.knot];
  if (!contour || !knot) return '';
  const kind = isOnSpine(outline, at) ? (at.knot === 0 ? ', foot of the spine' : ', top of the spine') : isSmooth(knot) ? ', smooth' : ', corner';
  const where = at.contour === 0 ? '' : `cut-out ${at.contour}, `;
  return `${where}point ${at.knot + 1} of ${contour.knots.length}, ${place(knot, units)}${kind}`;
}

export function handleName(outline: Outline, at: KnotPlace, side: HandleSide, units: Units): string {
  const handle = outline[at.contour]?.knots[at.knot]?.[side];
  return handle ? `bend ${side} point ${at.knot + 1}, ${place(handle, units)}` : '';
}

export function rowName(rows: Row[], index: number, units: Units): string {
  const row = rows[index];
  return row ? `glue row ${index + 1} of ${rows.length}, ${row.side}, ${length(heightOfRow(row), units)} up, ${length(row.width, units)} wide` : '';
}
