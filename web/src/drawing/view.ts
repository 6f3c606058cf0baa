// How the drawing is looked at: which place lies in the middle of the mat, and how many pixels a mm takes.
import type { Box, Spot } from './outline';

export interface View {
  middle: Spot;
  /** Pixels for a mm. */
  scale: number;
  width: number;
  height: number;
}

export interface Pixel {
  left: number;
  top: number;
}

export const onScreen = (view: View, spot: Spot): Pixel => ({
  left: view.width / 2 + (spot.x - view.middle.x) * view.scale,
  top: view.height / 2 - (spot.z - view.middle.z) * view.scale,
});

export const onMat = (view: View, pixel: Pixel): Spot => ({
  x: view.middle.x + (pixel.left - view.width / 2) / view.scale,
  z: view.middle.z - (pixel.top - view.height / 2) / view.scale,
});

const LEAST_SCALE = 0.05; // a 2 m leaf on 100 px
const MOST_SCALE = 200; // 0.1 mm is 20 px

/** Enlarges by `factor`; the place under `pixel` stays there. */
export function zoomed(view: View, factor: number, pixel: Pixel): View {
  const scale = Math.min(MOST_SCALE, Math.max(LEAST_SCALE, view.scale * factor));
  const kept = onMat(view, pixel);
  const middle = {
    x: kept.x - (pixel.left - view.width / 2) / scale,
    z: kept.z + (pixel.top - view.height / 2) / scale,
  };
  return { ...view, middle, scale };
}

export const panned = (view: View, right: number, down: number): View => ({
  ...view,
  middle: { x: view.middle.x - right / view.scale, z: view.middle.z + down / view.scale },
});

/** A mat of another size: what is drawn keeps its distance from the upper edge, and from the middle sideways. */
export const resized = (view: View, width: number, height: number): View => ({
  ...view,
  middle: { x: view.middle.x, z: view.middle.z - (height - view.height) / 2 / view.scale },
  width,
  height,
});

/** Shows all of `box`, with room for rulers around. */
export function framed(box: Box, width: number, height: number): View {
  const [wide, tall] = [Math.max(box.right - box.left, 10), Math.max(box.high - box.low, 10)];
  const scale = Math.max(LEAST_SCALE, Math.min((width - 110) / wide, (height - 72) / tall));
  return { middle: { x: (box.left + box.right) / 2 - 16 / scale, z: (box.low + box.high) / 2 - 8 / scale }, scale, width, height };
}

/** Shows all of `box` and its mirror, with room for rulers around. */
export function fitted(box: Box | null, width: number, height: number): View {
  const shown = box ?? { left: 0, right: 90, low: 0, high: 200 };
  const reach = Math.max(shown.right, 10);
  const tall = Math.max(shown.high - shown.low, 10);
  const scale = Math.min((width - 90) / (2 * reach), (height - 72) / tall);
  return { middle: { x: 0, z: (shown.low + shown.high) / 2 - 8 / scale }, scale: Math.max(LEAST_SCALE, scale), width, height };
}

export const pathOnScreen = (view: View, spots: readonly Spot[], closed = false): string =>
  spots
    .map((spot, i) => {
      const { left, top } = onScreen(view, spot);
      return `${i === 0 ? 'M' : 'L'}${left.toFixed(2)} ${top.toFixed(2)}`;
    })
    .join('') + (closed ? 'Z' : '');

export interface GridStep {
  /** Between fine lines, mm; what places snap to. */
  fine: number;
  /** Fine lines between two that carry a number. */
  every: number;
}

const metric: GridStep[] = [
  { fine: 0.1, every: 10 }, { fine: 0.5, every: 10 }, { fine: 1, every: 10 }, { fine: 2, every: 5 }, { fine: 5, every: 4 },
  { fine: 10, every: 5 }, { fine: 20, every: 5 }, { fine: 50, every: 4 }, { fine: 100, every: 5 },
];
const imperial: GridStep[] = [
  { fine: 25.4 / 64, every: 16 }, { fine: 25.4 / 32, every: 16 }, { fine: 25.4 / 16, every: 16 }, { fine: 25.4 / 8, every: 8 },
  { fine: 25.4 / 4, every: 4 }, { fine: 25.4, every: 6 }, { fine: 25.4 * 6, every: 2 },
];

/** The finest grid whose lines stand at least 7 pixels apart. */
export function gridStep(view: View, units: 'mm' | 'in'): GridStep {
  const steps = units === 'in' ? imperial : metric;
  return steps.find(({ fine }) => fine * view.scale >= 7) ?? (steps.at(-1) as GridStep);
}

export const snapped = (spot: Spot, fine: number): Spot => ({
  x: Math.round(spot.x / fine) * fine,
  z: Math.round(spot.z / fine) * fine,
});
