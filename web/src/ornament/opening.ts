// The ornament on its way from flat stack to open: between two solved openings points are blended in radius, height
// and share of the wedge, so that glue on a wall stays on that wall. Below the narrowest solved opening the paper
// goes on to the flat stack, its spines side by side.

import type { Panel } from './panel';

export interface Step {
  /** share of the full opening, above 0 and up to 1 */
  share: number;
  panel: Panel;
}

/** A panel at some opening, and how far the whole is moved so that its spines stay where they were, mm. */
export interface Opened {
  panel: Panel;
  shift: number;
  /** wholly open */
  whole: boolean;
}

/** An opening this small is a flat stack to the eye; at none at all the axis would be infinitely far away. */
export const leastShare = 0.004;

/** The panel at `share` of the full opening. `steps` go up, the last is the full opening. */
export function openedBy(steps: Step[], share: number): Opened {
  const first = steps[0]!;
  if (share < first.share) return stacked(first, Math.max(share, leastShare));
  const above = Math.max(1, steps.findIndex((step) => step.share >= share));
  const low = steps[above - 1], high = steps[above];
  if (!low || !high) return { panel: steps[steps.length - 1]!.panel, shift: 0, whole: true };
  const part = Math.min(1, (share - low.share) / (high.share - low.share));
  return { panel: blended(low.panel, high.panel, part), shift: 0, whole: share >= 1 };
}

/** Whether points of one may be blended with those of the other. */
export function samePoints(a: Panel, b: Panel): boolean {
  return a.positions.length === b.positions.length && a.index.length === b.index.length && a.halves === b.halves;
}

interface Round {
  radius: number;
  /** share of the wedge, 0 at wall A, 1 at wall B */
  turn: number;
  z: number;
}

function roundOf(panel: Panel, p: number): Round {
  const x = panel.positions[p]!, y = panel.positions[p + 1]!;
  return { radius: Math.hypot(x, y), turn: Math.atan2(y, x) / panel.wedge, z: panel.positions[p + 2]! };
}

function put(positions: Float32Array, p: number, place: Round, wedge: number): void {
  positions[p] = place.radius * Math.cos(place.turn * wedge);
  positions[p + 1] = place.radius * Math.sin(place.turn * wedge);
  positions[p + 2] = place.z;
}

function blended(low: Panel, high: Panel, part: number): Panel {
  const mix = (a: number, b: number): number => a + part * (b - a);
  const wedge = mix(low.wedge, high.wedge);
  const positions = new Float32Array(high.positions.length);
  for (let p = 0; p < positions.length; p += 3) {
    const a = roundOf(low, p), b = roundOf(high, p);
    put(positions, p, { radius: mix(a.radius, b.radius), turn: mix(a.turn, b.turn), z: mix(a.z, b.z) }, wedge);
  }
  const openness = high.openness.map((value, p) => mix(low.openness[p]!, value));
  return { ...high, wedge, positions, openness };
}

// The stack keeps its thickness at the spines, so the axis moves away as the opening narrows: hub x opening is kept.
function stacked(first: Step, share: number): Opened {
  const { panel } = first;
  let hub = Infinity;
  for (let p = 0; p < panel.positions.length; p += 3) {
    hub = Math.min(hub, Math.hypot(panel.positions[p]!, panel.positions[p + 1]!));
  }
  const part = share / first.share;
  const wedge = panel.wedge * part;
  const farther = hub / part;
  const positions = new Float32Array(panel.positions.length);
  for (let p = 0, f = 0; p < positions.length; p += 3, f += 2) {
    const open = roundOf(panel, p);
    const mix = (flat: number, opened: number): number => flat + part * (opened - flat);
    const radius = farther + mix(panel.flat[f]!, open.radius - hub);
    put(positions, p, { radius, turn: mix(0.5, open.turn), z: mix(panel.flat[f + 1]!, open.z) }, wedge);
  }
  return { panel: { ...panel, wedge, positions }, shift: hub - farther, whole: false };
}
