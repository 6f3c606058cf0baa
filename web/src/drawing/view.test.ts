import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitted, gridStep, onMat, onScreen, panned, resized, snapped, zoomed, type View } from './view';

const view: View = { middle: { x: 5, z: 120 }, scale: 2.5, width: 600, height: 400 };
const pixel = fc.record({ left: fc.double({ min: 0, max: 600, noNaN: true }), top: fc.double({ min: 0, max: 400, noNaN: true }) });

describe('the view', () => {
  it('the place under the pointer stays there while zooming', () => {
    fc.assert(
      fc.property(pixel, fc.double({ min: 0.2, max: 5, noNaN: true }), (at, factor) => {
        const [before, after] = [onMat(view, at), onMat(zoomed(view, factor, at), at)];
        expect(Math.hypot(after.x - before.x, after.z - before.z)).toBeLessThan(1e-9);
      }),
      { seed: 1 },
    );
  });

  it('dragging the mat takes what lies on it along', () => {
    const spot = onMat(view, { left: 100, top: 100 });
    expect(onScreen(panned(view, 30, -20), spot)).toEqual({ left: 130, top: 80 });
  });

  it('what is drawn stays where it is when the mat gets lower', () => {
    const spot = { x: 5, z: 99 };
    expect(onScreen(resized(view, 600, 350), spot)).toEqual(onScreen(view, spot));
  });

  it('fitting shows the whole leaf and its mirror', () => {
    const box = { left: 0, right: 86, low: 0, high: 260 };
    for (const [width, height] of [[600, 400], [300, 900]] as const) {
      const whole = fitted(box, width, height);
      for (const spot of [{ x: 86, z: 0 }, { x: -86, z: 260 }]) {
        const { left, top } = onScreen(whole, spot);
        expect(left).toBeGreaterThan(30);
        expect(left).toBeLessThan(width - 8);
        expect(top).toBeGreaterThan(8);
        expect(top).toBeLessThan(height - 20);
      }
    }
  });

  it('grid lines never stand nearer than 7 px, and what snaps lies on them', () => {
    for (const units of ['mm', 'in'] as const)
      for (let scale = 0.1; scale < 100; scale *= 1.3) {
        const { fine } = gridStep({ ...view, scale }, units);
        expect(fine * scale).toBeGreaterThanOrEqual(7);
        const { x } = snapped({ x: 17.77, z: 3 }, fine);
        expect(Math.abs(x / fine - Math.round(x / fine))).toBeLessThan(1e-9);
      }
  });
});
