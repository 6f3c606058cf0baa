// Changes of a design as plain JSON values: a place (JSON pointer, RFC 6901), what stood there, what stands there now.
// Values are never changed in place; what a change does not touch is shared between old and new.
import type { Json } from '../answers';

/** `before` or `after` left out: the key is absent then. In a list, absent means that the later items move up. */
export interface Change {
  at: string;
  before?: Json;
  after?: Json;
  /** Of a key that is taken away: how many keys stand before it, so that undoing puts it back in its place. */
  place?: number;
}

/** What an edit asks for; what stood there before is filled in from the document. */
export interface Wish {
  at: string;
  after?: Json;
}

/** One gesture: what it is called, and what it changed. */
export interface Step {
  label: string;
  changes: Change[];
}

export class Misplaced extends Error {}

type Keyed = { [key: string]: Json };

function keysOf(pointer: string): string[] {
  if (pointer === '') return [];
  if (!pointer.startsWith('/')) throw new Misplaced(`"${pointer}" is not a JSON pointer`);
  return pointer.slice(1).split('/').map((key) => key.replace(/~1/g, '/').replace(/~0/g, '~'));
}

function indexOf(key: string, list: Json[]): number {
  const index = /^(0|[1-9]\d*)$/.test(key) ? Number(key) : key === '-' ? list.length : -1;
  if (index < 0 || index > list.length) throw new Misplaced(`the list has no item "${key}"`);
  return index;
}

const isKeyed = (value: Json | undefined): value is Keyed =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** The value at `pointer`, or undefined when there is none. */
export function valueAt(value: Json, pointer: string): Json | undefined {
  let here: Json | undefined = value;
  for (const key of keysOf(pointer)) {
    if (Array.isArray(here)) here = /^(0|[1-9]\d*)$/.test(key) ? here[Number(key)] : undefined;
    else if (isKeyed(here)) here = Object.hasOwn(here, key) ? here[key] : undefined;
    else return undefined;
    if (here === undefined) return undefined;
  }
  return here;
}

function inList(list: Json[], key: string, keys: string[], change: Change): Json[] {
  const index = indexOf(key, list);
  const next = list.slice();
  if (keys.length > 0) next[index] = within(list[index], keys, change) as Json;
  else if (change.before === undefined && change.after !== undefined) next.splice(index, 0, change.after);
  else if (index === list.length) throw new Misplaced(`the list has no item "${key}"`);
  else if (change.after === undefined) next.splice(index, 1);
  else next[index] = change.after;
  return next;
}

function inKeyed(object: Keyed, key: string, keys: string[], change: Change): Keyed {
  const entries = Object.entries(object);
  const found = entries.findIndex(([name]) => name === key);
  const after = keys.length > 0 ? within(found < 0 ? undefined : entries[found]?.[1], keys, change) : change.after;
  if (found < 0) {
    if (after !== undefined) entries.splice(change.place ?? entries.length, 0, [key, after]);
  } else if (after === undefined) entries.splice(found, 1);
  else entries[found] = [key, after];
  return Object.fromEntries(entries);
}

function within(value: Json | undefined, keys: string[], change: Change): Json | undefined {
  const [key, ...rest] = keys;
  if (key === undefined) return change.after;
  if (Array.isArray(value)) return inList(value, key, rest, change);
  if (isKeyed(value)) return inKeyed(value, key, rest, change);
  throw new Misplaced(`nothing to change at "${change.at}"`);
}

export function applied(value: Json, change: Change): Json {
  const result = within(value, keysOf(change.at), change);
  if (result === undefined) throw new Misplaced('the document itself cannot be taken away');
  return result;
}

export const appliedAll = (value: Json, changes: Change[]): Json => changes.reduce(applied, value);

/** The change that takes `change` back. */
export function inverse(change: Change): Change {
  const back: Change = { at: change.at };
  if (change.after !== undefined) back.before = change.after;
  if (change.before !== undefined) back.after = change.before;
  if (change.place !== undefined) back.place = change.place;
  return back;
}

export const inverseAll = (changes: Change[]): Change[] => changes.map(inverse).reverse();

function placeOf(value: Json, pointer: string): number | undefined {
  const keys = keysOf(pointer);
  const key = keys.pop();
  const parent = valueAt(value, pointer.slice(0, pointer.lastIndexOf('/')));
  return key !== undefined && isKeyed(parent) ? Object.keys(parent).indexOf(key) : undefined;
}

/** Fills in what stands in the document; wishes that change nothing are left out. `insert`: into a list, not over it. */
export function changesOf(value: Json, wishes: (Wish & { insert?: true })[]): Change[] {
  const changes: Change[] = [];
  let here = value;
  for (const wish of wishes) {
    const before = wish.insert ? undefined : valueAt(here, wish.at);
    if (JSON.stringify(before) === JSON.stringify(wish.after)) continue;
    const change: Change = { at: wish.at };
    if (before !== undefined) change.before = before;
    if (wish.after !== undefined) change.after = wish.after;
    const place = before !== undefined && wish.after === undefined ? placeOf(here, wish.at) : undefined;
    if (place !== undefined) change.place = place;
    changes.push(change);
    here = applied(here, change);
  }
  return changes;
}
