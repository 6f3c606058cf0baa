// What a figure changes in a design: all of it, or its outline alone.
import type { Json } from '../answers';
import { valueAt, type Wish } from '../document/change';
import { readOutline, writeOutline, type Units } from '../drawing/outline';

export type TakenAs = 'a design of its own' | 'this design’s outline';

/** One step. `text` is a design file in mm; `units` are those of the design that is open. */
export function wishesOf(text: string, as: TakenAs, units: Units): Wish[] {
  const whole = JSON.parse(text) as Json;
  if (as === 'a design of its own') return [{ at: '', after: whole }];
  const path = String(valueAt(whole, '/silhouette/path') ?? '');
  const outline = units === 'mm' ? null : readOutline(path, 'mm');
  return [
    { at: '/silhouette/shows', after: valueAt(whole, '/silhouette/shows') ?? 'opened' },
    { at: '/silhouette/path', after: outline ? writeOutline(outline, units) : path },
  ];
}
