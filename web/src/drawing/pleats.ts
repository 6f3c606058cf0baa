// The pleats of a fan on the drawing of its spread edge: each crease from the gathered end to the edge.
import type { Spot } from './outline';

const full = 2 * Math.PI;

/** Angles about the centre, followed along the edge, so that they may go on beyond a turn. */
function anglesAlong(edge: Spot[]): number[] {
  let last = 0;
  return edge.map(({ x, z }, k) => {
    const angle = Math.atan2(z, x);
    last = k === 0 ? angle : last + (angle - last - full * Math.round((angle - last) / full));
    return last;
  });
}

/** Where each of `panels` + 1 creases meets the edge, from one side to the other; the farthest where it meets it often. */
export function creaseEnds(edge: Spot[], panels: number): Spot[] {
  const angles = anglesAlong(edge);
  const first = angles[0], last = angles.at(-1);
  if (first === undefined || last === undefined || panels < 1) return [];
  const ends: Spot[] = [];
  for (let k = 0; k <= panels; k += 1) {
    const angle = first + ((last - first) * k) / panels;
    let reach = 0;
    for (let i = 1; i < edge.length; i += 1) {
      const [a, b] = [angles[i - 1]!, angles[i]!];
      if ((angle - a) * (angle - b) > 1e-12) continue;
      const t = a === b ? 0 : (angle - a) / (b - a);
      const [p, q] = [edge[i - 1]!, edge[i]!];
      reach = Math.max(reach, Math.hypot(p.x + t * (q.x - p.x), p.z + t * (q.z - p.z)));
    }
    if (reach > 0) ends.push({ x: reach * Math.cos(angle), z: reach * Math.sin(angle) });
  }
  return ends;
}
