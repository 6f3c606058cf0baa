import { expect, test } from 'vitest';
import type { Figure, ImportAnswer } from '../answers';
import { reportOf } from './report';
import { wishesOf } from './taken';

const figure: Figure = {
  title: 'Bell', text: '', outline: [[0, 0], [40, 0], [0, 120]], cut_outs: [[[10, 10], [12, 10], [12, 12]]], points: 9,
  size_mm: { height: 119.97, width: 79.93 }, what: 'whole', tilt_deg: -1.25, asymmetry_mm: { mean: 0.41, most: 2.5, at_height: 38.32 },
  tolerance_mm: 0.2, changed: ['1 gap narrower than a knife slit closed.'], marks: [], found: '', filled: '', dropped: '', placing: [1, 0, 0, -1, 0, 0],
};
const answer: ImportAnswer = { kind: 'SVG', page: { width: 1, height: 1 }, notes: ['1 speck was left out.'], figures: [figure] };

test('the report says what was found and everything that was done', () => {
  expect(reportOf(answer, figure, 'mm')).toEqual([
    '120 mm high, 79.9 mm wide, 9 points, 1 cut-out.',
    'The axis leant to the right by 1.3°; set upright.',
    'Left and right differ by 0.41 mm on average and 2.5 mm at most, 38.3 mm up.',
    'The curves keep within 0.2 mm of what was found.',
    '1 gap narrower than a knife slit closed.',
    '1 speck was left out.',
  ]);
});

test('sides that agree, and halves, have no difference to tell', () => {
  const even = { ...figure, tilt_deg: 0.01, asymmetry_mm: { mean: 0, most: 0.01, at_height: 0 } };
  expect(reportOf(answer, even, 'mm')[1]).toBe('Left and right agree.');
  expect(reportOf(answer, { ...even, what: 'half' }, 'mm')[1]).toBe('Half a figure: its straight side is the spine.');
});

const text = JSON.stringify({ fanwright: 1, title: 'Bell', units: 'mm', silhouette: { shows: 'flat', path: 'M 0 0 L 25.4 0 L 0 50.8' }, leaves: 40 });

test('a design of its own takes the place of all of it', () => {
  expect(wishesOf(text, 'a design of its own', 'in')).toEqual([{ at: '', after: JSON.parse(text) }]);
});

test('an outline alone leaves the rest, in the units of the design', () => {
  expect(wishesOf(text, 'this design’s outline', 'mm')[1]).toEqual({ at: '/silhouette/path', after: 'M 0 0 L 25.4 0 L 0 50.8' });
  const inches = wishesOf(text, 'this design’s outline', 'in');
  expect(inches[0]).toEqual({ at: '/silhouette/shows', after: 'flat' });
  expect(inches[1]?.after).toMatch(/^M 0 0 L 1 0 L 0 2$/);
});
