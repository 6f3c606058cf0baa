// Dimension lines of what stands on the table, from places on the table to lines in the picture.
import type { Projection } from './stage';

export interface Dimension {
  /** ends of the measured line and of the two lines that lead to it, pixels */
  line: [number, number, number, number];
  leads: [number, number, number, number][];
  /** middle of the line: where the words stand */
  at: { x: number; y: number };
  along: 'height' | 'width';
}

type Spot = [number, number, number];

/** Height at the viewer's right, diameter on the table in front. `turn`: the viewer's azimuth, radians. Lengths mm. */
export function dimensionsOf(height: number, radius: number, turn: number, project: Projection): Dimension[] {
  const right: [number, number] = [-Math.sin(turn), Math.cos(turn)];
  const front: [number, number] = [Math.cos(turn), Math.sin(turn)];
  const spot = (r: number, f: number, z: number): Spot =>
    [r * right[0] + f * front[0], r * right[1] + f * front[1], z];
  const beside = 1.16 * radius, before = 1.18 * radius;
  return [
    dimension('height', [spot(beside, 0, 0), spot(beside, 0, height)],
      [[spot(0.98 * radius, 0, 0), spot(1.2 * radius, 0, 0)], [spot(0.12 * radius, 0, height), spot(1.2 * radius, 0, height)]], project),
    dimension('width', [spot(-radius, before, 0), spot(radius, before, 0)],
      [-radius, radius].map((side) => [spot(side, 0.1 * radius, 0), spot(side, 1.24 * radius, 0)] as [Spot, Spot]), project),
  ];
}

function dimension(along: 'height' | 'width', ends: [Spot, Spot], leads: [Spot, Spot][], project: Projection): Dimension {
  const flat = ([from, to]: [Spot, Spot]): [number, number, number, number] => {
    const a = project(from), b = project(to);
    return [a.x, a.y, b.x, b.y];
  };
  const line = flat(ends);
  return { along, line, leads: leads.map(flat), at: { x: (line[0] + line[2]) / 2, y: (line[1] + line[3]) / 2 } };
}
