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

/** A pair of wings; `height`: of the silhouette as drawn, mm. 14 pleats of a tenth of the reach spread well past the arc. */
export function firstFan(height: number, names: string[], units: Units): Json {
  const reach = Math.round(Math.min(400, Math.max(30, 0.36 * height)));
  const name = ['wing', 'tail', 'collar'].find((known) => !names.includes(known)) ?? `fan ${names.length + 1}`;
  return {
    name,
    pair: true,
    depth: inUnits(Math.max(3, reach / 10), units),
    pleats: 14,
    outline: arcPath(inUnits(reach, units)),
    seat: { hold: 'along edge', below_neck: inUnits(Math.round(0.05 * height), units), azimuth: 90 },
  };
}
