// The half-panel that all half-panels of an ornament are copies of, as the server sends it: magic "FWM1", little
// endian. Wedge frame: the ornament's axis is Z, wall A is the half-plane y = 0, wall B is turned by `wedge` about Z.

export interface Panel {
  /** number of half-panels, two to a leaf */
  halves: number;
  /** angle of one wedge, radians */
  wedge: number;
  /** x, y, z of each point, mm */
  positions: Float32Array;
  /** x, z of each point on the flat leaf, mm */
  flat: Float32Array;
  /** share of the sky each point sees, 0..1 */
  openness: Float32Array;
  /** three points a triangle */
  index: Uint32Array;
}

const headerBytes = 20;

/** Reads a mesh; throws with a sentence when the bytes are not one. */
export function readPanel(bytes: ArrayBuffer): Panel {
  const view = new DataView(bytes);
  if (bytes.byteLength < headerBytes || view.getUint32(0, false) !== 0x46574d31) {
    throw new Error('What the studio sent is not a mesh.');
  }
  const points = view.getUint32(4, true);
  const triangles = view.getUint32(8, true);
  const padded = Math.ceil(points / 4) * 4;
  const wanted = headerBytes + 4 * (3 * points + 2 * points) + padded + 12 * triangles;
  if (bytes.byteLength !== wanted) {
    throw new Error('The mesh that the studio sent is cut short.');
  }
  let at = headerBytes;
  const floats = (count: number): Float32Array => {
    const part = new Float32Array(bytes, at, count);
    at += 4 * count;
    return part;
  };
  const positions = floats(3 * points);
  const flat = floats(2 * points);
  const openness = Float32Array.from(new Uint8Array(bytes, at, points), (value) => value / 255);
  at += padded;
  const index = new Uint32Array(bytes, at, 3 * triangles);
  if (index.some((point) => point >= points)) {
    throw new Error('The mesh that the studio sent names points that it does not hold.');
  }
  return { halves: view.getUint32(12, true), wedge: view.getFloat32(16, true), positions, flat, openness, index };
}

/** Unit normals at the points, weighted by the areas of the triangles round them. */
export function normalsOf(positions: Float32Array, index: Uint32Array): Float32Array {
  const normals = new Float32Array(positions.length);
  for (let t = 0; t < index.length; t += 3) {
    const a = 3 * index[t]!, b = 3 * index[t + 1]!, c = 3 * index[t + 2]!;
    const ux = positions[b]! - positions[a]!, uy = positions[b + 1]! - positions[a + 1]!;
    const uz = positions[b + 2]! - positions[a + 2]!;
    const vx = positions[c]! - positions[a]!, vy = positions[c + 1]! - positions[a + 1]!;
    const vz = positions[c + 2]! - positions[a + 2]!;
    const normal = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
    for (const corner of [a, b, c]) {
      for (let k = 0; k < 3; ++k) normals[corner + k]! += normal[k]!;
    }
  }
  for (let p = 0; p < normals.length; p += 3) {
    const length = Math.hypot(normals[p]!, normals[p + 1]!, normals[p + 2]!) || 1;
    for (let k = 0; k < 3; ++k) normals[p + k]! /= length;
  }
  return normals;
}

/** Height and diameter of the whole, mm. */
export function extentOf(panel: Pick<Panel, 'positions'>): { height: number; radius: number } {
  let height = 0, radius = 0;
  for (let p = 0; p < panel.positions.length; p += 3) {
    height = Math.max(height, panel.positions[p + 2]!);
    radius = Math.max(radius, Math.hypot(panel.positions[p]!, panel.positions[p + 1]!));
  }
  return { height, radius };
}
