// A fan to begin with, as large as suits the silhouette.
import type { Json } from '../answers';
import { inUnits, type Units } from '../drawing/outline';

const arcFromDeg = 212, arcToDeg = 100, parts = 2;

/** An arc round the fan's centre as path data, from its lower left to its upper end. */
export function arcPath(reach: number): string {
  const turn = ((arcToDeg - arcFromDeg) * Math.PI) / 180 / parts;
  // Handles of an arc reach 4/3 tan(turn / 4) of the radius.
  const handle = (4 / 3) * Math.tan(turn / 4);
  const at = (angle: number): [number, number] => [reach * Math.cos(angle), reach * Math.sin(angle)];
  const text = (x: number, y: number): string => `${Number(x.toFixed(4))} ${Number(y.toFixed(4))}`;
  let angle = (arcFromDeg * Math.PI) / 180;
  let path = `M ${text(...at(angle))}`;
  for (let k = 0; k < parts; k += 1, angle += turn) {
    const [ax, ay] = at(angle), [bx, by] = at(angle + turn);
    path += ` C ${text(ax - handle * ay, ay + handle * ax)} ${text(bx + handle * by, by - handle * bx)} ${text(bx, by)}`;
  }
  return path;
}

const leastDepthMm = 3; // as pleats can be folded
const fullness = 1.4; // length of the strip over that of the rim: 1.2 to 1.5 is usual (common practice, no source)

/**
 * A pair of wings. `height`: of the silhouette as drawn, mm; `leastScale`: of the smallest size to the drawing. Held at
 * a point with both sides free, they find room on most bodies.
 */
export function firstFan(height: number, leastScale: number, names: string[], units: Units): Json {
  const reach = Math.round(Math.min(400, Math.max(30, 0.36 * height)));
  const depth = Math.max(reach / 10, (1.02 * leastDepthMm) / leastScale);
  const rim = (reach * (arcFromDeg - arcToDeg) * Math.PI) / 180;
  const name = ['wing', 'tail', 'collar'].find((known) => !names.includes(known)) ?? `fan ${names.length + 1}`;
  return {
    name,
    pair: true,
    depth: inUnits(depth, units),
    pleats: Math.max(3, Math.ceil((fullness * rim) / depth / 2)),
    outline: arcPath(inUnits(reach, units)),
    seat: { hold: 'at point', below_neck: inUnits(Math.round(0.08 * height), units), azimuth: 90, rise: 30 },
  };
}
