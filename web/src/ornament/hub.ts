// The folds side by side round the axis. Panels have no thickness here, so without this one could look straight
// through the ornament between two of them; in paper the folds touch and close the hub to a tube.
import { BufferAttribute, BufferGeometry } from 'three';
import type { Panel } from './panel';

const around = 64;
const onSpineMm = 1e-3;

/** The tube along the spine, from angle `from` through the whole opening. */
export function hubOf(panel: Panel, from: number): BufferGeometry {
  const spine: { radius: number; z: number; along: number }[] = [];
  for (let p = 0; p < panel.flat.length / 2; ++p) {
    if (panel.flat[2 * p]! > onSpineMm) continue;
    const x = panel.positions[3 * p]!, y = panel.positions[3 * p + 1]!;
    spine.push({ radius: Math.hypot(x, y), z: panel.positions[3 * p + 2]!, along: panel.flat[2 * p + 1]! });
  }
  spine.sort((a, b) => a.along - b.along);
  const places: number[] = [], normals: number[] = [], index: number[] = [];
  const side = around + 1;
  spine.forEach(({ radius, z }, ring) => {
    for (let k = 0; k < side; ++k) {
      const angle = from + (panel.halves * panel.wedge * k) / around;
      places.push(radius * Math.cos(angle), radius * Math.sin(angle), z);
      normals.push(Math.cos(angle), Math.sin(angle), 0);
      if (ring === 0 || k === around) continue;
      const a = (ring - 1) * side + k, b = ring * side + k;
      index.push(a, a + 1, b, a + 1, b + 1, b);
    }
  });
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(Float32Array.from(places), 3));
  geometry.setAttribute('normal', new BufferAttribute(Float32Array.from(normals), 3));
  geometry.setAttribute('openness', new BufferAttribute(new Float32Array(places.length / 3), 1));
  geometry.setIndex(index);
  return geometry;
}
