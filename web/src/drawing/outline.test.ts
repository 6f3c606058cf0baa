import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { canRemove, cornered, isSmooth, isUnfinished, movedHandle, movedKnot, removedKnot, smoothed, withCutOut } from './edits';
import { boxOf, distance, flattened, heightOf, nearestOn, reachAt, readOutline, withKnotOn, writeOutline, type Outline } from './outline';

const pear = 'M 0 7 C 12 7 18 0 34 0 C 66 0 86 34 86 74 C 86 126 46 138 42 188 L 20 260 C 13 258 7 257 0 257';
const read = (path: string, units: 'mm' | 'in' = 'mm'): Outline => {
  const outline = readOutline(path, units);
  if (!outline) throw new Error(`not read: ${path}`);
  return outline;
};

describe('outlines as path data', () => {
  it('reading and writing give the same path again', () => {
    expect(writeOutline(read(pear), 'mm')).toBe(pear);
    const holes = 'M 0 0 L 40 0 L 40 90 L 0 90 M 10 20 L 20 20 L 15 30 Z M 30 40 C 30 45 20 45 20 40 C 20 35 30 35 30 40 Z';
    expect(writeOutline(read(holes), 'mm')).toBe(holes);
  });

  it('reads the short forms', () => {
    expect(writeOutline(read('M0 0h40v120H0'), 'mm')).toBe('M 0 0 L 40 0 L 40 120 L 0 120');
    expect(writeOutline(read('M0 0H40V120H0Z'), 'mm')).toBe('M 0 0 L 40 0 L 40 120 L 0 120');
    expect(writeOutline(read('M0 0q30 0 30 30t-30 30'), 'mm')).toBe('M 0 0 C 20 0 30 10 30 30 C 30 50 20 60 0 60');
  });

  it('turns a silhouette written downwards the right way up', () => {
    expect(writeOutline(read('M 0 50 C 10 50 20 40 20 25 L 0 0'), 'mm')).toBe('M 0 0 L 20 25 C 20 40 10 50 0 50');
  });

  it('an arc stays on its circle to 0.03 % of the radius', () => {
    const spots = flattened(read('M 0 0 A 50 50 0 0 1 0 100')[0] as never);
    for (const spot of spots) expect(Math.abs(distance(spot, { x: 0, z: 50 }) - 50)).toBeLessThan(0.015);
  });

  it('keeps inches to a ten-thousandth', () => {
    const path = 'M 0 0 L 1.125 0.25 C 2.0001 1 1 3 0 4';
    expect(writeOutline(read(path, 'in'), 'in')).toBe(path);
    expect(read(path, 'in')[0]?.knots[1]?.x).toBeCloseTo(28.575, 9);
  });

  it('does not take a word for a path', () => {
    expect(readOutline('pear', 'mm')).toBeNull();
    expect(readOutline('M 0 0 L 1', 'mm')).toBeNull();
    expect(readOutline('', 'mm')).toEqual([]);
  });
});

describe('edits', () => {
  it('a knot put on a line leaves the line where it is', () => {
    const outline = read(pear);
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 4 }), fc.double({ min: 0.05, max: 0.95, noNaN: true }), (segment, t) => {
        const { outline: more } = withKnotOn(outline, { contour: 0, segment, t });
        expect(more[0]?.knots.length).toBe(7);
        for (const spot of flattened(more[0] as never, 5)) expect(nearestOn(outline, spot)?.distance).toBeLessThan(0.02);
      }),
      { seed: 1, numRuns: 30 },
    );
  });

  it('adds on the piece that closes a cut-out', () => {
    const oval = withCutOut(read('M 0 0 L 40 0 L 40 90 L 0 90'), { x: 20, z: 40 }, 20, 20);
    const { outline, knot } = withKnotOn(oval, { contour: 1, segment: 3, t: 0.5 });
    expect(knot).toBe(4);
    for (const spot of flattened(outline[1] as never)) expect(distance(spot, { x: 20, z: 40 })).toBeCloseTo(10, 1);
  });

  it('foot and top stay on the spine and nothing goes left of it', () => {
    const outline = read(pear);
    expect(movedKnot(outline, { contour: 0, knot: 0 }, { x: 9, z: 3 })[0]?.knots[0]).toMatchObject({ x: 0, z: 3 });
    expect(movedKnot(outline, { contour: 0, knot: 1 }, { x: -9, z: 3 })[0]?.knots[1]).toMatchObject({ x: 0, z: 3 });
    expect(canRemove(outline, { contour: 0, knot: 0 })).toBe(false);
  });

  it('handles of a smooth point turn together, those of a corner do not', () => {
    const outline = smoothed(read(pear), { contour: 0, knot: 2 });
    expect(isSmooth(outline[0]?.knots[2] as never)).toBe(true);
    const turned = movedHandle(outline, { contour: 0, knot: 2 }, 'after', { x: 100, z: 90 });
    expect(isSmooth(turned[0]?.knots[2] as never)).toBe(true);
    const broken = movedHandle(outline, { contour: 0, knot: 2 }, 'after', { x: 100, z: 90 }, true);
    expect(isSmooth(broken[0]?.knots[2] as never)).toBe(false);
    expect(isSmooth(cornered(outline, { contour: 0, knot: 2 })[0]?.knots[2] as never)).toBe(false);
  });

  it('never leaves a cut-out of fewer than three points', () => {
    let outline = withCutOut(read(pear), { x: 20, z: 40 }, 10, 10);
    for (let i = 0; i < 6; i += 1) outline = removedKnot(outline, { contour: 1, knot: 0 });
    expect(outline[1]?.knots.length).toBe(3);
  });

  it('tells a silhouette still being drawn', () => {
    expect(isUnfinished(read(''))).toBe(true);
    expect(isUnfinished(read('M 0 0'))).toBe(true);
    expect(isUnfinished(read('M 0 0 L 30 40'))).toBe(true);
    expect(isUnfinished(read(pear))).toBe(false);
  });
});

describe('measures', () => {
  it('height and reach of the pear', () => {
    expect(heightOf(read(pear))).toBeCloseTo(260, 6);
    expect(boxOf(flattened(read(pear)[0] as never, 64))?.right).toBeCloseTo(86, 3);
    expect(reachAt(read('M 0 0 L 40 0 L 40 120 L 0 120'), 3, 60)).toBeCloseTo(40, 9);
    expect(reachAt(read('M 0 0 L 40 0 L 40 120 L 0 120'), 3, 130)).toBeNull();
  });
});
