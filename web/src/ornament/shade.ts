// The shade that an ornament puts on the table under the open sky, at rings of places round its axis: the share of the
// sky, cosine-weighted, that the body hides. The body is taken as its silhouette turned through the opening.
import { BufferAttribute, BufferGeometry, Mesh, MeshBasicMaterial } from 'three';
import type { Panel } from './panel';

/** Lowest and highest paper at each distance from the axis. */
interface Body {
  reach: number;
  low: Float64Array;
  high: Float64Array;
  /** the angles that the opening covers, radians */
  from: number;
  to: number;
}

const stepsOut = 48;

function bodyOf(panel: Panel, from: number): Body {
  const { positions } = panel;
  let reach = 0;
  for (let p = 0; p < positions.length; p += 3) reach = Math.max(reach, Math.hypot(positions[p]!, positions[p + 1]!));
  const low = new Float64Array(stepsOut).fill(Infinity), high = new Float64Array(stepsOut).fill(-1);
  for (let p = 0; p < positions.length; p += 3) {
    const ring = Math.min(stepsOut - 1, Math.floor((Math.hypot(positions[p]!, positions[p + 1]!) / reach) * stepsOut));
    low[ring] = Math.min(low[ring]!, positions[p + 2]!);
    high[ring] = Math.max(high[ring]!, positions[p + 2]!);
  }
  return { reach, low, high, from, to: from + panel.halves * panel.wedge };
}

function hiddenAt(body: Body, x: number, y: number, round: boolean): number {
  const directions = round ? 48 : 20, elevations = round ? 20 : 8, marches = 32;
  let hidden = 0;
  for (let d = 0; d < directions; ++d) {
    const across = (2 * Math.PI * (d + 0.5)) / directions, c = Math.cos(across), s = Math.sin(across);
    const stopped = new Uint8Array(elevations);
    for (let m = 0; m < marches; ++m) {
      const along = ((m + 0.5) / marches) * (Math.hypot(x, y) + body.reach);
      const px = x + along * c, py = y + along * s;
      const ring = Math.floor((Math.hypot(px, py) / body.reach) * stepsOut);
      if (ring >= stepsOut || !within(body, Math.atan2(py, px))) continue;
      for (let e = 0; e < elevations; ++e) {
        // Equal shares of the cosine-weighted sky: sin^2 of the elevation is even.
        const sine2 = (e + 0.5) / elevations, z = along * Math.sqrt(sine2 / (1 - sine2));
        if (z >= body.low[ring]! && z <= body.high[ring]!) stopped[e] = 1;
      }
    }
    hidden += stopped.reduce((sum, value) => sum + value, 0);
  }
  return hidden / (directions * elevations);
}

function within(body: Body, angle: number): boolean {
  const turn = angle - body.from - 2 * Math.PI * Math.floor((angle - body.from) / (2 * Math.PI));
  return turn <= body.to - body.from + 1e-6;
}

export interface SkyOverTable {
  /** distances from the axis, mm */
  rings: number[];
  spokes: number;
  /** share of the sky hidden, ring by ring */
  hidden: Float32Array;
}

export function skyOverTable(panel: Panel, from: number): SkyOverTable {
  const body = bodyOf(panel, from);
  const rings = Array.from({ length: 30 }, (_, k) => body.reach * (0.02 + 2.9 * (k / 29) ** 1.4));
  const round = body.to - body.from > 2 * Math.PI - 0.02;
  const spokes = round ? 48 : 40;
  const hidden = new Float32Array(rings.length * spokes);
  rings.forEach((radius, r) => {
    for (let k = 0; k < spokes; ++k) {
      const angle = (2 * Math.PI * k) / spokes;
      hidden[r * spokes + k] =
        round && k > 0 ? hidden[r * spokes]! : hiddenAt(body, radius * Math.cos(angle), radius * Math.sin(angle), round);
    }
  });
  return { rings, spokes, hidden };
}

export interface Shade {
  mesh: Mesh;
  dispose: () => void;
}

/** The shade as a disc just above the table, black with the hidden share as its opacity. */
export function tableShade(sky: SkyOverTable): Shade {
  const { rings, spokes, hidden } = sky;
  const places: number[] = [], colours: number[] = [], index: number[] = [];
  rings.forEach((radius, r) => {
    for (let k = 0; k < spokes; ++k) {
      const angle = (2 * Math.PI * k) / spokes;
      places.push(radius * Math.cos(angle), radius * Math.sin(angle), 0);
      const fading = Math.max(0, 1 - r / (rings.length - 1)) ** 0.5;
      colours.push(0, 0, 0, 0.55 * hidden[r * spokes + k]! * fading);
      const next = (k + 1) % spokes;
      if (r > 0) {
        const a = (r - 1) * spokes + k, b = (r - 1) * spokes + next, c = r * spokes + k, d = r * spokes + next;
        index.push(a, c, b, b, c, d);
      }
    }
  });
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(Float32Array.from(places), 3));
  geometry.setAttribute('color', new BufferAttribute(Float32Array.from(colours), 4));
  geometry.setIndex(index);
  const material = new MeshBasicMaterial({ vertexColors: true, transparent: true, depthWrite: false });
  const mesh = new Mesh(geometry, material);
  mesh.position.z = -0.3;
  mesh.renderOrder = -1;
  return { mesh, dispose: () => { geometry.dispose(); material.dispose(); } };
}
