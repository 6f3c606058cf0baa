// Fewer triangles over the same points, for frames drawn while the ornament moves and for slow graphics.
// Based on Rossignac and Borrel's vertex clustering, on the flat leaf: the points of a square cell become one of them.
// Points on the spine, on other edges and within the paper are joined each among their own, so that necks stay whole.

import type { Panel } from './panel';

/** The points on the paper's edges: those of triangle sides that no second triangle shares. */
export function edgePoints(index: Uint32Array, points: number): Uint8Array {
  const seen = new Map<number, number>();
  for (let t = 0; t < index.length; t += 3) {
    for (let k = 0; k < 3; ++k) {
      const a = index[t + k]!, b = index[t + ((k + 1) % 3)]!;
      const side = Math.min(a, b) * points + Math.max(a, b);
      seen.set(side, (seen.get(side) ?? 0) + 1);
    }
  }
  const edge = new Uint8Array(points);
  for (const [side, times] of seen) {
    if (times === 1) {
      edge[side % points] = 1;
      edge[Math.floor(side / points)] = 1;
    }
  }
  return edge;
}

/** For each point the one of its kind that stands for its cell: the one nearest to the cell's middle. */
function standingFor(panel: Panel, edge: Uint8Array, cell: number): Uint32Array {
  const points = edge.length;
  const chosen = new Map<number, number>();
  const cellOf = (p: number): number =>
    (Math.floor(panel.flat[2 * p]! / cell) * 65536 + Math.floor(panel.flat[2 * p + 1]! / cell) + 32768) * 3 +
    (panel.flat[2 * p]! < 1e-3 ? 2 : edge[p]!);
  const offMiddle = (p: number): number => {
    const x = panel.flat[2 * p]! / cell, z = panel.flat[2 * p + 1]! / cell;
    return Math.hypot(x - Math.floor(x) - 0.5, z - Math.floor(z) - 0.5);
  };
  for (let p = 0; p < points; ++p) {
    const key = cellOf(p), best = chosen.get(key);
    if (best === undefined || offMiddle(p) < offMiddle(best)) chosen.set(key, p);
  }
  return Uint32Array.from({ length: points }, (_, p) => chosen.get(cellOf(p))!);
}

function clustered(panel: Panel, edge: Uint8Array, cell: number): Uint32Array {
  const stands = standingFor(panel, edge, cell);
  const kept: number[] = [];
  for (let t = 0; t < panel.index.length; t += 3) {
    const a = stands[panel.index[t]!]!, b = stands[panel.index[t + 1]!]!, c = stands[panel.index[t + 2]!]!;
    if (a !== b && b !== c && c !== a) kept.push(a, b, c);
  }
  return Uint32Array.from(kept);
}

/** An index of at most about `most` triangles over the panel's own points; the panel's own where it has no more. */
export function coarserIndex(panel: Panel, most: number): Uint32Array {
  if (panel.index.length <= 3 * most) return panel.index;
  const edge = edgePoints(panel.index, panel.positions.length / 3);
  let area = 0;
  for (let t = 0; t < panel.index.length; t += 3) area += flatArea(panel, t);
  let cell = Math.sqrt((2 * area) / most);
  let index = clustered(panel, edge, cell);
  for (let tries = 0; tries < 8 && index.length > 3 * most; ++tries) {
    cell *= 1.15;
    index = clustered(panel, edge, cell);
  }
  return index;
}

function flatArea(panel: Panel, triangle: number): number {
  const [a, b, c] = [0, 1, 2].map((k) => 2 * panel.index[triangle + k]!) as [number, number, number];
  const { flat } = panel;
  const ux = flat[b]! - flat[a]!, uz = flat[b + 1]! - flat[a + 1]!;
  const vx = flat[c]! - flat[a]!, vz = flat[c + 1]! - flat[a + 1]!;
  return Math.abs(ux * vz - uz * vx) / 2;
}
