import { describe, expect, it } from 'vitest';
import { boxOf, flattened, readOutline } from '../drawing/outline';
import { arcPath, firstFan } from './fans';

describe('a fan to begin with', () => {
  it('has a round edge about its centre', () => {
    const spots = flattened(readOutline(arcPath(50), 'mm', true)![0]!, 40);
    for (const { x, z } of spots) expect(Math.abs(Math.hypot(x, z) - 50)).toBeLessThan(0.05);
    const box = boxOf(spots)!;
    expect(box.left).toBeCloseTo(-50, 1);
    expect(Math.atan2(spots.at(-1)!.z, spots.at(-1)!.x)).toBeCloseTo((100 * Math.PI) / 180, 4);
  });

  it('has pleats that can be folded in the smallest size, and enough of them', () => {
    for (const scale of [1, 0.5, 0.2]) {
      const fan = firstFan(200, scale, ['wing'], 'mm') as { name: string; depth: number; pleats: number };
      expect(fan.name).toBe('tail');
      expect(fan.depth * scale).toBeGreaterThanOrEqual(3);
      // Wider than flat at the rim: 72 mm through 112 degrees.
      expect(2 * fan.pleats * fan.depth).toBeGreaterThan(1.3 * 72 * ((112 * Math.PI) / 180));
    }
  });
});
