import { expect, test } from 'vitest';
import { asUsual, queryOf } from './asked';

test('nothing is asked but what was said', () => {
  expect(queryOf(asUsual(), 'my bell.svg')).toBe('name=my+bell.svg');
  expect(queryOf({ ...asUsual(), what: 'whole', side: 'left', shows: 'flat' }, 'a', 2)).toBe('name=a&what=whole&side=left&shows=flat&figure=2');
});

test('one way of scaling holds, and only once it is said in full', () => {
  const all = { ...asUsual(), height: 120, width: 80, apart: 40, points: [{ x: 1, y: 2 }, { x: 3.5, y: 4 }] as [{ x: number; y: number }, { x: number; y: number }] };
  expect(queryOf({ ...all, scaled: 'height' }, 'a')).toBe('name=a&height=120');
  expect(queryOf({ ...all, scaled: 'width' }, 'a')).toBe('name=a&width=80');
  expect(new URLSearchParams(queryOf({ ...all, scaled: 'two points' }, 'a')).get('between')).toBe('1.000,2.000,3.500,4.000=40');
  expect(queryOf({ ...all, scaled: 'two points', apart: undefined }, 'a')).toBe('name=a');
  expect(queryOf({ ...all, scaled: 'two points', points: null }, 'a')).toBe('name=a');
});

test('half a figure has no sides to choose from', () => {
  expect(queryOf({ ...asUsual(), what: 'half', side: 'left' }, 'a')).toBe('name=a&what=half');
});
