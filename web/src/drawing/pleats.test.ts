import { describe, expect, it } from 'vitest';
import { creaseEnds } from './pleats';
import { flattened, readOutline } from './outline';

describe('pleats on the drawing', () => {
  it('share the spread evenly, from one end of the edge to the other', () => {
    const edge = flattened(readOutline('M 50 0 A 50 50 0 0 1 0 50', 'mm', true)![0]!, 64);
    const ends = creaseEnds(edge, 6);
    expect(ends).toHaveLength(7);
    ends.forEach(({ x, z }, k) => {
      expect(Math.hypot(x, z)).toBeCloseTo(50, 1);
      expect((Math.atan2(z, x) * 180) / Math.PI).toBeCloseTo(15 * k, 1);
    });
  });

  it('go on beyond half a turn', () => {
    const edge = flattened(readOutline('M 50 0 A 50 50 0 1 1 0 -50', 'mm', true)![0]!, 64);
    const ends = creaseEnds(edge, 3);
    expect(ends[2]!.x).toBeCloseTo(-50, 0);
    expect(ends[3]!.z).toBeCloseTo(-50, 0);
  });
});
