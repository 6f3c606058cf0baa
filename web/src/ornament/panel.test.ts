import { describe, expect, it } from 'vitest';
import { coarserIndex, edgePoints } from './coarser';
import { openedBy, samePoints, type Step } from './opening';
import { extentOf, normalsOf, readPanel, type Panel } from './panel';

/** A flat square of `cells` x `cells` squares of 1 mm in the half-plane in the middle of its wedge. */
function square(cells: number, wedge = 0.1, hub = 2): Panel {
  const side = cells + 1;
  const positions: number[] = [], flat: number[] = [], index: number[] = [];
  for (let row = 0; row < side; ++row) {
    for (let column = 0; column < side; ++column) {
      const radius = hub + column;
      positions.push(radius * Math.cos(wedge / 2), radius * Math.sin(wedge / 2), row);
      flat.push(column, row);
      if (row === cells || column === cells) continue;
      const a = row * side + column;
      index.push(a, a + 1, a + side, a + 1, a + side + 1, a + side);
    }
  }
  return {
    halves: 8, wedge, positions: Float32Array.from(positions), flat: Float32Array.from(flat),
    openness: new Float32Array(side * side).fill(1), index: Uint32Array.from(index),
  };
}

function bytesOf(panel: Panel): ArrayBuffer {
  const points = panel.positions.length / 3, padded = Math.ceil(points / 4) * 4;
  const bytes = new ArrayBuffer(20 + 20 * points + padded + 4 * panel.index.length);
  const view = new DataView(bytes);
  [...'FWM1'].forEach((letter, k) => view.setUint8(k, letter.charCodeAt(0)));
  [points, panel.index.length / 3, panel.halves].forEach((value, k) => view.setUint32(4 + 4 * k, value, true));
  view.setFloat32(16, panel.wedge, true);
  panel.positions.forEach((value, k) => view.setFloat32(20 + 4 * k, value, true));
  panel.flat.forEach((value, k) => view.setFloat32(20 + 12 * points + 4 * k, value, true));
  panel.openness.forEach((value, k) => view.setUint8(20 + 20 * points + k, Math.round(255 * value)));
  panel.index.forEach((value, k) => view.setUint32(20 + 20 * points + padded + 4 * k, value, true));
  return bytes;
}

const flatArea = (panel: Panel, index: Uint32Array): number => {
  let area = 0;
  for (let t = 0; t < index.length; t += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => [panel.flat[2 * index[t + k]!]!, panel.flat[2 * index[t + k]! + 1]!]) as number[][];
    area += ((b![0]! - a![0]!) * (c![1]! - a![1]!) - (b![1]! - a![1]!) * (c![0]! - a![0]!)) / 2;
  }
  return area;
};

describe('a mesh from the server', () => {
  it('reads back what was written', () => {
    const sent = square(3), read = readPanel(bytesOf(sent));
    expect(read.halves).toBe(8);
    expect(read.wedge).toBeCloseTo(0.1, 6);
    expect([...read.positions]).toEqual([...sent.positions]);
    expect([...read.flat]).toEqual([...sent.flat]);
    expect([...read.index]).toEqual([...sent.index]);
    expect(read.openness.every((value) => value === 1)).toBe(true);
  });

  it('refuses other bytes, short ones, and triangles of points that are not there', () => {
    const bytes = bytesOf(square(2));
    expect(() => readPanel(new ArrayBuffer(40))).toThrow('not a mesh');
    expect(() => readPanel(bytes.slice(0, bytes.byteLength - 4))).toThrow('cut short');
    const wild = bytes.slice(0);
    new DataView(wild).setUint32(wild.byteLength - 4, 99, true);
    expect(() => readPanel(wild)).toThrow('does not hold');
  });

  it('has the extent of its highest and farthest points', () => {
    const { height, radius } = extentOf(square(5));
    expect(height).toBeCloseTo(5, 5);
    expect(radius).toBeCloseTo(7, 5);
  });
});

describe('normals', () => {
  it('are those of the plane the paper lies in', () => {
    const panel = square(3), normals = normalsOf(panel.positions, panel.index);
    // The half-plane at angle 0.05: across it (sin, -cos, 0), turned as its triangles turn.
    for (let p = 0; p < normals.length; p += 3) {
      expect(normals[p]).toBeCloseTo(Math.sin(0.05), 4);
      expect(normals[p + 1]).toBeCloseTo(-Math.cos(0.05), 4);
      expect(normals[p + 2]).toBeCloseTo(0, 4);
    }
  });
});

describe('fewer triangles', () => {
  it('finds the points on the edge', () => {
    const panel = square(4), edge = edgePoints(panel.index, 25);
    edge.forEach((on, p) => {
      const x = panel.flat[2 * p]!, z = panel.flat[2 * p + 1]!;
      expect(on === 1).toBe(x === 0 || x === 4 || z === 0 || z === 4);
    });
  });

  it('are at most as many as asked for, and cover nearly all the paper', () => {
    const panel = square(40);
    for (const most of [2000, 800, 200]) {
      const index = coarserIndex(panel, most);
      expect(index.length).toBeLessThanOrEqual(3 * most);
      expect(flatArea(panel, index)).toBeGreaterThan(0.85 * 1600);
    }
  });

  it('leaves a mesh alone that has no more', () => {
    const panel = square(4);
    expect(coarserIndex(panel, 32)).toBe(panel.index);
  });
});

describe('on its way from flat stack to open', () => {
  const steps: Step[] = [
    { share: 0.25, panel: square(6, 0.025, 8) },
    { share: 1, panel: square(6, 0.1, 2) },
  ];
  const turns = (panel: Panel): number[] => {
    const result: number[] = [];
    for (let p = 0; p < panel.positions.length; p += 3) {
      result.push(Math.atan2(panel.positions[p + 1]!, panel.positions[p]!) / panel.wedge);
    }
    return result;
  };

  it('is what was solved at the solved openings', () => {
    expect(openedBy(steps, 1).panel.positions).toEqual(steps[1]!.panel.positions);
    const narrow = openedBy(steps, 0.25).panel;
    narrow.positions.forEach((value, p) => expect(value).toBeCloseTo(steps[0]!.panel.positions[p]!, 4));
  });

  it('keeps each point at its share of the wedge', () => {
    for (const share of [0.3, 0.6, 0.9]) {
      for (const turn of turns(openedBy(steps, share).panel)) expect(turn).toBeCloseTo(0.5, 3);
    }
  });

  it('goes on to the flat leaf, without a jump where the solved openings end', () => {
    const almost = openedBy(steps, 0.2499), first = steps[0]!.panel;
    almost.panel.positions.forEach((value, p) => {
      expect(value + (p % 3 === 0 ? almost.shift : 0)).toBeCloseTo(first.positions[p]!, 1);
    });
    const { panel, shift } = openedBy(steps, 0);
    const hub = 8;
    for (let p = 0, f = 0; p < panel.positions.length; p += 3, f += 2) {
      expect(panel.positions[p]! + shift - hub).toBeCloseTo(panel.flat[f]!, 1);
      expect(panel.positions[p + 2]!).toBeCloseTo(panel.flat[f + 1]!, 1);
    }
  });

  it('blends only meshes of the same points', () => {
    expect(samePoints(square(4), square(4))).toBe(true);
    expect(samePoints(square(4), square(5))).toBe(false);
  });
});
