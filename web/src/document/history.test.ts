import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Json } from '../answers';
import { applied, changesOf, inverse, Misplaced, valueAt } from './change';
import { begun, done, redone, undone, type History } from './history';

const keys = ['leaves', 'rows', 'paper', 'sizes', 'a/b', 'm~n', '__proto__', ''];
const leafValue = fc.oneof(fc.integer(), fc.boolean(), fc.constant(null), fc.string({ maxLength: 6 }));
const { value: anyJson } = fc.letrec<{ value: Json }>((tie) => ({
  value: fc.oneof(
    { depthSize: 'small', withCrossShrink: true },
    leafValue,
    fc.array(tie('value'), { maxLength: 4 }),
    fc.dictionary(fc.constantFrom(...keys), tie('value'), { maxKeys: 4 }),
  ) as fc.Arbitrary<Json>,
}));
const root = fc.dictionary(fc.constantFrom(...keys), anyJson, { minKeys: 2, maxKeys: 6 }) as fc.Arbitrary<Json>;

function placesIn(value: Json, at = ''): string[] {
  if (typeof value !== 'object' || value === null) return [];
  const inside: [string, Json][] = Array.isArray(value) ? value.map((item, i) => [String(i), item]) : Object.entries(value);
  return inside.flatMap(([key, item]) => {
    const here = `${at}/${key.replace(/~/g, '~0').replace(/\//g, '~1')}`;
    return [here, ...placesIn(item, here)];
  });
}

/** A repeatable run of numbers (mulberry32, public domain). */
function numbers(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

function randomEdit(history: History, next: () => number): History {
  const places = placesIn(history.value);
  const at = places[Math.floor(next() * places.length)] ?? '/leaves';
  const kind = next();
  const parent = valueAt(history.value, at.slice(0, at.lastIndexOf('/')));
  const fresh: Json = next() < 0.5 ? Math.floor(next() * 1000) : { from: [1, Math.floor(next() * 9)], side: 'inside' };
  if (kind < 0.15 && places.length > 6) return done(history, { label: 'take away', changes: changesOf(history.value, [{ at }]) });
  if (kind < 0.4 && Array.isArray(parent) && parent.length < 30)
    return done(history, { label: 'put in', changes: changesOf(history.value, [{ at, after: fresh, insert: true }]) });
  if (kind < 0.6 && places.length < 200)
    return done(history, { label: 'new key', changes: changesOf(history.value, [{ at: `/${keys[Math.floor(next() * 5)]?.replace(/~/g, '~0').replace(/\//g, '~1')}`, after: [fresh, fresh] }]) });
  return done(history, { label: 'set', changes: changesOf(history.value, [{ at, after: fresh }]) });
}

describe('steps', () => {
  it('taking a change back gives the exact text again, order of keys included', () => {
    fc.assert(
      fc.property(root, fc.nat(), fc.option(anyJson, { nil: undefined }), fc.boolean(), (value, pick, after, insert) => {
        const places = placesIn(value);
        const at = places[pick % places.length] as string;
        const list = Array.isArray(valueAt(value, at.slice(0, at.lastIndexOf('/'))));
        const wish = { at, ...(after === undefined ? {} : { after }), ...(insert && list && after !== undefined ? { insert: true as const } : {}) };
        for (const change of changesOf(value, [wish]))
          expect(JSON.stringify(applied(applied(value, change), inverse(change)))).toBe(JSON.stringify(value));
      }),
      { seed: 1, numRuns: 2000 },
    );
  });

  it('ten thousand random edits, undone and redone at random, return every document they passed through', () => {
    const next = numbers(7);
    const start: Json = { fanwright: 1, leaves: 46, rows: [{ side: 'inside', from: [3, 10] }], paper: { grammage: 160 }, sizes: [] };
    let history = begun(start);
    let passed = [JSON.stringify(start)];
    for (let edit = 0; edit < 10_000; edit += 1) {
      const roll = next();
      if (roll < 0.25) history = undone(history);
      else if (roll < 0.4) history = redone(history);
      else {
        history = randomEdit(history, next);
        passed = passed.slice(0, history.at);
        passed.push(JSON.stringify(history.value));
      }
      expect(JSON.stringify(history.value)).toBe(passed[history.at]);
    }
    while (history.at > 0) history = undone(history);
    expect(JSON.stringify(history.value)).toBe(JSON.stringify(start));
    while (history.at < history.steps.length) history = redone(history);
    expect(JSON.stringify(history.value)).toBe(passed.at(-1));
  });

  it('leaves the document that was there before untouched', () => {
    const value: Json = { rows: [1, 2, 3], paper: { grammage: 160 } };
    const text = JSON.stringify(value);
    applied(value, { at: '/rows/1', before: 2 });
    applied(value, { at: '/paper/grammage', before: 160, after: 200 });
    expect(JSON.stringify(value)).toBe(text);
  });

  it('refuses places that are not there', () => {
    expect(() => applied({ rows: [1] }, { at: '/rows/3', after: 2 })).toThrow(Misplaced);
    expect(() => applied({ leaves: 4 }, { at: '/leaves/0', after: 2 })).toThrow(Misplaced);
    expect(() => applied({ leaves: 4 }, { at: 'leaves', after: 2 })).toThrow(Misplaced);
    expect(() => applied({ leaves: 4 }, { at: '', before: 4 })).toThrow(Misplaced);
  });

  it('drops wishes that change nothing', () => {
    expect(changesOf({ leaves: 4 }, [{ at: '/leaves', after: 4 }, { at: '/opening' }])).toEqual([]);
  });
});
