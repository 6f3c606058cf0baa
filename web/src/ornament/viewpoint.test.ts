import { describe, expect, it } from 'vitest';
import { drawnByProcessor } from './pace';
import { lengthIn, predicted } from './measures';
import { eyeOf, firstLook, framing, lensDeg, moved, nearer, turned, type Room } from './viewpoint';

const room: Room = { halfWidth: 60, halfDepth: 60, height: 150 };

describe('where the viewer stands', () => {
  it('never goes over the top or far below the table', () => {
    expect(turned(firstLook, 0, 9).elevation).toBeLessThan(Math.PI / 2);
    expect(turned(firstLook, 0, -9).elevation).toBeGreaterThan(-0.3);
  });

  it('comes neither into the ornament nor out of sight', () => {
    expect(nearer(firstLook, 1e9, room).distance).toBeGreaterThan(Math.hypot(60, 60));
    expect(nearer(firstLook, 1e-9, room).distance).toBeLessThan(1e4);
  });

  it('keeps its distance when it is moved or turned', () => {
    const away = (view: typeof firstLook): number =>
      Math.hypot(...eyeOf(view).map((value, k) => value - view.target[k]!));
    expect(away(moved(turned(firstLook, 1, 0.2), 0.3, 0.1))).toBeCloseTo(firstLook.distance, 6);
  });

  it('frames all corners of the room, seen from any side', () => {
    for (const azimuth of [0, 0.8, 2.5]) for (const elevation of [0, 0.3, 1.2]) for (const aspect of [0.8, 1.8]) {
      const view = framing({ ...firstLook, azimuth, elevation }, room, aspect);
      const eye = eyeOf(view), half = Math.tan((lensDeg * Math.PI) / 360);
      const forward = view.target.map((value, k) => (value - eye[k]!) / view.distance);
      const right = [-Math.sin(azimuth), Math.cos(azimuth), 0];
      const up = [
        -Math.sin(elevation) * Math.cos(azimuth), -Math.sin(elevation) * Math.sin(azimuth), Math.cos(elevation),
      ];
      const dot = (a: number[], b: number[]): number => a.reduce((sum, value, k) => sum + value * b[k]!, 0);
      for (let turn = 0; turn < 8; ++turn) for (const z of [0, room.height]) {
        const corner = [60 * Math.cos(turn), 60 * Math.sin(turn), z].map((value, k) => value - eye[k]!);
        const depth = dot(corner, forward);
        expect(Math.abs(dot(corner, up)) / depth).toBeLessThan(half);
        expect(Math.abs(dot(corner, right)) / depth).toBeLessThan(half * aspect);
      }
    }
  });
});

describe('measures in words', () => {
  it('follow the unit of the design', () => {
    expect(lengthIn(151.4, 'mm')).toBe('151 mm');
    expect(lengthIn(151.4, 'in')).toBe('5.96 in');
    expect(lengthIn(0.42, 'mm')).toBe('0.4 mm');
  });

  it('carry the spread of the prediction', () => {
    expect(predicted(151.4, 1.2, 'mm')).toBe('151 ± 1 mm');
    expect(predicted(151.4, 0.1, 'mm')).toBe('151 ± 0.5 mm');
    expect(predicted(151.4, null, 'mm')).toBe('151 mm');
  });
});

it('knows graphics that the processor draws by their name', () => {
  expect(drawnByProcessor('ANGLE (Google, Vulkan 1.3.0 (SwiftShader Device (Subzero)))')).toBe(true);
  expect(drawnByProcessor('llvmpipe (LLVM 15.0.6, 256 bits)')).toBe(true);
  expect(drawnByProcessor('Mesa Intel(R) UHD Graphics 620')).toBe(false);
});
