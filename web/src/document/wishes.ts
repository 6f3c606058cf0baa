// Setting a key whose parents may not be there yet.
import type { Json } from '../answers';
import { valueAt, type Wish } from './change';

const isKeyed = (value: Json | undefined): value is { [key: string]: Json } =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/**
 * The wish that sets `at` to `after`, or takes it away. Missing parents are made. Rows that are just the word "auto"
 * become an object that says the same, so that their width and gaps can be given.
 */
export function wishFor(document: Json, at: string, after: Json | undefined): Wish[] {
  const cut = at.lastIndexOf('/');
  if (cut <= 0) return [after === undefined ? { at } : { at, after }];
  const parentAt = at.slice(0, cut);
  const parent = valueAt(document, parentAt);
  const key = at.slice(cut + 1);
  if (isKeyed(parent) || Array.isArray(parent)) return [after === undefined ? { at } : { at, after }];
  if (after === undefined) return [];
  if (parent === 'auto') return [{ at: parentAt, after: { count: 'auto', [key]: after } }];
  return wishFor(document, parentAt, { [key]: after });
}
