import { describe, expect, it } from 'vitest';
import type { Panel } from './panel';
import { skyOverTable } from './shade';

/** A drum of this radius and height, as the silhouette of one half-panel; `opening` in radians. */
function drum(radius: number, height: number, opening: number): Panel {
  const positions: number[] = [];
  for (let r = 0; r <= radius; r += 0.5) positions.push(r, 0, 0, r, 0, height);
  const points = positions.length / 3;
  return {
    halves: 100, wedge: opening / 100, positions: Float32Array.from(positions), flat: new Float32Array(2 * points),
    openness: new Float32Array(points), index: new Uint32Array(0),
  };
}

describe('the shade on the table', () => {
  it('beside an endless drum is the share of the horizon that it hides', () => {
    const { rings, spokes, hidden } = skyOverTable(drum(50, 1e6, 2 * Math.PI), 0);
    rings.forEach((ring, r) => {
      if (ring < 55) return;
      // Seen from outside, a circle of radius R hides 2 asin(R / ring) of the horizon; 48 directions resolve 1/48.
      expect(Math.abs(hidden[r * spokes]! - Math.asin(50 / ring) / Math.PI)).toBeLessThan(1 / 48 + 0.005);
    });
  });

  it('is nearly all of the sky under it and next to none beside a leaf lying flat', () => {
    const under = skyOverTable(drum(50, 100, 2 * Math.PI), 0);
    expect(under.hidden[0]).toBeGreaterThan(0.95);
    const flat = skyOverTable(drum(50, 0, 2 * Math.PI), 0);
    flat.rings.forEach((ring, r) => {
      if (ring > 52) expect(flat.hidden[r * flat.spokes]!).toBeLessThan(0.01);
    });
  });

  it('of a half opened piece falls on the side where it stands', () => {
    const { rings, spokes, hidden } = skyOverTable(drum(50, 100, Math.PI), -Math.PI / 2);
    const ring = rings.findIndex((radius) => radius > 52);
    expect(hidden[ring * spokes]!).toBeGreaterThan(hidden[ring * spokes + spokes / 2]! + 0.1);
  });
});
