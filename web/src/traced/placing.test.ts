import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Placing } from '../answers';
import { fitted, onScreen } from '../drawing/view';
import { cornersOf, enlarged, inFile, matrixOnScreen, onLeaf, scaleOf, shifted, stood, turned, turnOf } from './placing';

const number = (least: number, most: number) => fc.double({ min: least, max: most, noNaN: true });
const spot = fc.record({ x: number(-300, 300), z: number(-300, 300) });
/** Any scale, turn and place, mirrored or not. */
const placing = fc
  .tuple(number(0.02, 5), number(-170, 170), spot, fc.boolean())
  .map(([scale, turn, at, mirrored]): Placing => turned([mirrored ? -scale : scale, 0, 0, -scale, at.x, at.z], turn, at));

test('a place in the file and one on the leaf are told from each other', () => {
  fc.assert(fc.property(placing, spot, (lies, at) => {
    const back = onLeaf(lies, inFile(lies, at));
    expect(back.x).toBeCloseTo(at.x, 6);
    expect(back.z).toBeCloseTo(at.z, 6);
  }), { seed: 1 });
});

test('enlarging and turning leave one place where it is, and turn by as much as is said', () => {
  fc.assert(fc.property(placing, spot, number(0.1, 10), number(-9, 9), (lies, stays, factor, turn) => {
    const before = inFile(lies, stays);
    const after = onLeaf(enlarged(turned(lies, turn, stays), factor, stays), before);
    expect(after.x).toBeCloseTo(stays.x, 5);
    expect(after.z).toBeCloseTo(stays.z, 5);
    expect(scaleOf(enlarged(lies, factor, stays)) / scaleOf(lies)).toBeCloseTo(factor, 6);
    expect(turnOf(turned(lies, turn, stays))).toBeCloseTo(turnOf(lies) + turn, 4);
  }), { seed: 1 });
});

test('a picture first stands on the foot, its middle on the spine', () => {
  const [upperLeft, , lowerRight] = cornersOf(stood(300, 600, 180), 300, 600);
  expect([upperLeft, lowerRight]).toEqual([{ x: -45, z: 180 }, { x: 45, z: 0 }]);
  expect(turnOf(stood(300, 600, 180))).toBe(0);
  expect(shifted(stood(300, 600, 180), { x: 5, z: -7 }).slice(4)).toEqual([-40, 173]);
});

test('on screen the picture lies where its places lie', () => {
  fc.assert(fc.property(placing, (lies) => {
    const view = fitted({ left: 0, right: 60, low: 0, high: 180 }, 640, 480);
    const [a, b, c, d, e, f] = (/\((.*)\)/.exec(matrixOnScreen(lies, view))?.[1] ?? '').split(',').map(Number) as Placing;
    const { left, top } = onScreen(view, onLeaf(lies, { x: 40, y: 25 }));
    expect(a * 40 + c * 25 + e).toBeCloseTo(left, 4);
    expect(b * 40 + d * 25 + f).toBeCloseTo(top, 4);
  }), { seed: 1 });
});
