// What the studio advises for one size, and the change that follows a piece of it.
import type { Json } from '../answers';
import { valueAt, type Wish } from '../document/change';

export interface Range {
  low: number;
  usual: number;
  high: number;
  present: number;
}

export interface Look {
  leaves: number;
  present: boolean;
  cell_width_mm: number;
  cell_height_mm: number;
  lock_ratio: number;
  cells: string;
  height_mm: number | null;
  diameter_mm: number | null;
  hands_on_h: number;
}

export interface Advice {
  name: string;
  leaves: Range & { low_reason: string; high_reason: string };
  rows: Range & { spacing_mm: number; reason: string };
  grammage: Range & { reason: string };
  looks: Look[];
}

/** The advice in an answer, whether it comes alone or in a list of sizes. Throws with a sentence when there is none. */
export function adviceIn(answer: Json, size: string): Advice {
  const sizes = valueAt(answer, '/sizes');
  const list = Array.isArray(sizes) ? sizes : [answer];
  const found = list.find((one) => valueAt(one, '/name') === size) ?? list[0];
  if (found === undefined || valueAt(found, '/leaves/usual') === undefined) throw new Error('The studio has no advice for this size.');
  return found as unknown as Advice;
}

/** Sets a key of one size ("leaves", "rows/count", "paper/grammage"); of the design itself when it lists no sizes. */
export function wishFor(design: Json, size: string, key: string, after: number): Wish {
  const sizes = valueAt(design, '/sizes');
  const index = Array.isArray(sizes) ? sizes.findIndex((one) => valueAt(one, '/name') === size) : -1;
  const root = index < 0 ? '' : `/sizes/${index}`;
  const [outer, inner] = key.split('/') as [string, string?];
  if (inner === undefined || valueAt(design, `${root}/${outer}`) !== undefined) return { at: `${root}/${key}`, after };
  return { at: `${root}/${outer}`, after: { [inner]: after } };
}

/** Whether rows are counted, not listed or placed one by one: only then can their number be set. */
export function rowsAreCounted(design: Json, size: string): boolean {
  const sizes = valueAt(design, '/sizes');
  const own = Array.isArray(sizes) ? sizes.find((one) => valueAt(one, '/name') === size) : undefined;
  const rows = (own !== undefined ? valueAt(own, '/rows') : undefined) ?? valueAt(design, '/rows');
  return typeof rows === 'object' && rows !== null && !Array.isArray(rows) && !('list' in rows);
}
