// Where fans sit, on the drawing: marks on the half that comes out once open, and what moving one means for the file.
import type { Form, Json } from '../answers';
import { valueAt, type Wish } from '../document/change';
import { wishFor } from '../document/wishes';
import type { SeatTold } from '../ornament/fans';
import { inUnits, mmPer, type Spot, type Units } from './outline';

/** As the design file's schema has it. */
export const usualBelowNeckMm = 10;
const deepestMm = 1000;

/** The seat of a fan, on the drawing's scale, mm. */
export interface SeatMark {
  fan: number;
  name: string;
  /** below the neck, or the top */
  below: number;
  spot: Spot;
}

export const seatAt = (fan: number): string => `/fans/${fan}/seat`;

export function fanName(document: Json, fan: number): string {
  const name = valueAt(document, `/fans/${fan}/name`);
  return typeof name === 'string' ? name : `fan ${fan + 1}`;
}

/** The drawn edge of a fan as path data; null where it has none. */
export function edgeOf(document: Json, fan: number): string | null {
  const path = valueAt(document, `/fans/${fan}/outline`);
  return typeof path === 'string' ? path : null;
}

/** Farthest from the axis that the opened outline is at a height, mm of the size. */
function radiusAt(form: Form, z: number): number {
  let radius = 0;
  for (let k = 1; k < form.outline.length; k += 1) {
    const [ra, za] = form.outline[k - 1]!, [rb, zb] = form.outline[k]!;
    if (za > z === zb > z) continue;
    radius = Math.max(radius, ra + ((z - za) / (zb - za)) * (rb - ra));
  }
  return radius;
}

/** `from`: height of the size from which seats are measured down, mm; `scale`: mm of the size for a mm of the drawing. */
export function seatMarks(document: Json, form: Form, from: number, scale: number, units: Units): SeatMark[] {
  const fans = valueAt(document, '/fans');
  if (!Array.isArray(fans)) return [];
  return fans.flatMap((_, fan) => {
    if (valueAt(document, seatAt(fan)) === undefined) return [];
    const value = valueAt(document, `${seatAt(fan)}/below_neck`);
    const below = typeof value === 'number' ? value * mmPer(units) : usualBelowNeckMm;
    const z = from - below * scale;
    return [{ fan, name: fanName(document, fan), below, spot: { x: radiusAt(form, z) / scale, z: z / scale } }];
  });
}

/** The seat moved so far up; it stays at or below the neck. */
export function seatMoved(document: Json, mark: SeatMark, up: number, units: Units): { below: number; wishes: Wish[] } {
  const below = Math.min(deepestMm, Math.max(0, Math.round((mark.below - up) * 100) / 100));
  return { below, wishes: wishFor(document, `${seatAt(mark.fan)}/below_neck`, inUnits(below, units)) };
}

/** How far a fan spreads in its seat, and what stops it. */
export function seatWords({ taken_deg, most_deg, limited_by }: SeatTold): string {
  const room = most_deg - taken_deg > 0.5 ? `; up to ${most_deg.toFixed(0)}° would do` : '';
  return `Spreads to ${taken_deg.toFixed(0)}°${room}${limited_by === null ? '' : `, then it meets the ${limited_by}`}.`;
}
