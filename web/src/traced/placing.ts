// How a picture lies on the leaf: from its pixels, y down from its upper left corner, to mm out and up.
import type { Placing } from '../answers';
import type { Spot } from '../drawing/outline';
import { onScreen, type View } from '../drawing/view';
import type { FilePoint } from './asked';

export const onLeaf = ([a, b, c, d, e, f]: Placing, { x, y }: FilePoint): Spot => ({ x: a * x + c * y + e, z: b * x + d * y + f });

export function inFile([a, b, c, d, e, f]: Placing, { x, z }: Spot): FilePoint {
  const whole = a * d - b * c;
  return { x: (d * (x - e) - c * (z - f)) / whole, y: (a * (z - f) - b * (x - e)) / whole };
}

export const written = (placing: Placing): string => `matrix(${placing.join(' ')})`;

/** CSS's matrix() that shows the picture where it lies. */
export function matrixOnScreen(placing: Placing, view: View): string {
  const [a, b, c, d, e, f] = placing;
  const { left, top } = onScreen(view, { x: e, z: f });
  const { scale } = view;
  return `matrix(${[a * scale, -b * scale, c * scale, -d * scale, left, top].join(',')})`;
}

export const shifted = ([a, b, c, d, e, f]: Placing, by: Spot): Placing => [a, b, c, d, e + by.x, f + by.z];

/** Enlarged by `factor`; `stays` stays where it is. */
export const enlarged = ([a, b, c, d, e, f]: Placing, factor: number, stays: Spot): Placing => [
  a * factor, b * factor, c * factor, d * factor, stays.x + (e - stays.x) * factor, stays.z + (f - stays.z) * factor,
];

/** Turned to the left; `stays` stays where it is. */
export function turned([a, b, c, d, e, f]: Placing, degrees: number, stays: Spot): Placing {
  const [cos, sin] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
  const [x, z] = [e - stays.x, f - stays.z];
  return [
    cos * a - sin * b, sin * a + cos * b, cos * c - sin * d, sin * c + cos * d, stays.x + cos * x - sin * z, stays.z + sin * x + cos * z,
  ];
}

/** By how much it has been turned to the left, degrees. */
export const turnOf = ([a, b, c, d]: Placing): number => {
  const mirrored = a * d - b * c > 0; // pixels run down, so that a picture the right way round has a negative determinant
  return (Math.atan2(mirrored ? -b : b, mirrored ? -a : a) * 180) / Math.PI + 0;
};

/** mm that a pixel takes. */
export const scaleOf = ([a, b]: Placing): number => Math.hypot(a, b);

/** Corners from the upper left one on, clockwise in the picture. */
export const cornersOf = (placing: Placing, width: number, height: number): [Spot, Spot, Spot, Spot] => [
  onLeaf(placing, { x: 0, y: 0 }), onLeaf(placing, { x: width, y: 0 }), onLeaf(placing, { x: width, y: height }), onLeaf(placing, { x: 0, y: height }),
];

/** A picture that is laid down first: as high as `tall` mm, standing on the foot, its middle on the spine. */
export function stood(width: number, height: number, tall: number): Placing {
  const scale = tall / height;
  return [scale, 0, 0, -scale, (-scale * width) / 2, tall];
}
