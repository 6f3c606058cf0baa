// Path data from elsewhere -> an outline that stands on the spine.
import { boxOf, flattened, readOutline, type Contour, type Knot, type Outline, type Spot, type Units } from './outline';

export interface Placing {
  /** Its y runs down, as in SVG files. */
  downwards: boolean;
  /** It shows the left half. */
  left: boolean;
  /** mm to scale it to, foot to top; null: as it is. */
  height: number | null;
}

/** The path data of pasted text: all of it, or the d attributes of the path elements in it. */
export function pathDataIn(text: string): string {
  if (!/<path[\s>]/.test(text)) return text.trim();
  return [...text.matchAll(/<path\b[^>]*?\sd\s*=\s*(?:"([^"]*)"|'([^']*)')/g)].map(([, a, b]) => (a ?? b ?? '').trim()).join(' ');
}

function mapped(contour: Contour, to: (spot: Spot) => Spot): Contour {
  const knots = contour.knots.map((knot): Knot => ({
    ...to(knot), ...(knot.before ? { before: to(knot.before) } : {}), ...(knot.after ? { after: to(knot.after) } : {}),
  }));
  return { ...contour, knots };
}

/** Ends of a silhouette this near to one line lie on the spine, as a share of its height. */
const ON_SPINE = 0.01;

/** The outline as it would stand on the mat, or a sentence saying why it cannot be a silhouette. */
export function placedOutline(path: string, units: Units, placing: Placing): Outline | { sentence: string } {
  const outline = readOutline(path, units);
  if (!outline?.[0]) return { sentence: 'There is no line in this.' };
  const turned = outline.map((contour) =>
    mapped(contour, ({ x, z }) => ({ x: placing.left ? -x : x, z: placing.downwards ? -z : z })),
  );
  const silhouette = turned[0] as Contour;
  const box = boxOf(flattened(silhouette, 64));
  const [first, last] = [silhouette.knots[0], silhouette.knots.at(-1)];
  if (!box || !first || !last || box.high - box.low < 1e-6) return { sentence: 'This line has no height.' };
  const tall = box.high - box.low;
  if (silhouette.knots.length < 3 || Math.abs(first.x - last.x) > tall * ON_SPINE)
    return { sentence: 'The first line of a silhouette begins and ends on the spine; this one does not.' };
  const factor = placing.height === null ? 1 : placing.height / tall;
  const stands = (spot: Spot) => ({ x: (spot.x - first.x) * factor, z: (spot.z - box.low) * factor });
  const placed = turned.map((contour) => mapped(contour, stands));
  return placed.map((contour, i) => (i === 0 ? onSpine(contour) : { ...contour, closed: true }));
}

function onSpine(contour: Contour): Contour {
  const end = contour.knots.length - 1;
  const knots = contour.knots.map((knot, i) => (i === 0 || i === end ? { ...knot, x: 0 } : knot));
  const rising = (knots[end] as Knot).z >= (knots[0] as Knot).z;
  const swapped = ({ before, after, x, z }: Knot): Knot => ({ x, z, ...(after ? { before: after } : {}), ...(before ? { after: before } : {}) });
  return { closed: false, knots: rising ? knots : knots.map(swapped).reverse() };
}
