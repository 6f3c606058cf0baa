// One ornament on the table: its half-panel drawn once for each half of each leaf, right-hand and left-hand.
import { BufferAttribute, BufferGeometry, DynamicDrawUsage, Group, InstancedMesh, Matrix4, Mesh } from 'three';
import { coarserIndex } from './coarser';
import type { FanPaper } from './fans';
import { hubOf } from './hub';
import type { Opened } from './opening';
import { extentOf, normalsOf, type Panel } from './panel';
import { paperOf } from './paper';
import { skyOverTable, tableShade, type Shade } from './shade';

/** Half-panel k stands at this angle, radians: even ones are turned copies, odd ones mirrored and turned. */
export function turnOf(k: number, wedge: number): number {
  return (k % 2 === 0 ? k : k + 1) * wedge;
}

/** Angle of the first wall, so that the middle of the opening faces the viewer and no wall is seen edge on. */
export function firstTurn(panel: Panel): number {
  return -(panel.halves * panel.wedge) / 2 + panel.wedge / 2;
}

function mirrored(values: Float32Array): Float32Array {
  return values.map((value, k) => (k % 3 === 1 ? -value : value));
}

function turnedOver(index: Uint32Array): Uint32Array {
  const result = index.slice();
  for (let t = 0; t < result.length; t += 3) [result[t + 1], result[t + 2]] = [result[t + 2]!, result[t + 1]!];
  return result;
}

type Detail = 'still' | 'moving';

export class Piece {
  readonly group = new Group();
  readonly extent: { height: number; radius: number };
  /** The same with the fans. */
  reach: { height: number; radius: number };
  private fans: Mesh<BufferGeometry, ReturnType<typeof paperOf>>[] = [];
  private readonly hands: InstancedMesh[] = [];
  private readonly hub: Mesh<BufferGeometry, ReturnType<typeof paperOf>>;
  private readonly indices: Record<Detail, BufferAttribute>[] = [];
  private shade: Shade | null = null;
  private panel: Panel;
  /** how far the axis stands from the middle of the table, mm */
  private axis = 0;

  /** `most`: triangles of one half-panel, for frames at rest and while it moves. */
  constructor(opened: Opened, colour: string, most: Record<Detail, number>) {
    this.panel = opened.panel;
    this.extent = this.reach = extentOf(opened.panel);
    const still = coarserIndex(this.panel, most.still), moving = coarserIndex(this.panel, most.moving);
    for (const left of [false, true]) {
      const geometry = new BufferGeometry();
      const of = (index: Uint32Array): BufferAttribute => new BufferAttribute(left ? turnedOver(index) : index, 1);
      this.indices.push({ still: of(still), moving: of(moving) });
      const hand = new InstancedMesh(geometry, paperOf(colour), Math.ceil(this.panel.halves / 2));
      hand.castShadow = hand.receiveShadow = true;
      hand.frustumCulled = false;
      hand.instanceMatrix.setUsage(DynamicDrawUsage);
      this.hands.push(hand);
      this.group.add(hand);
    }
    this.hub = new Mesh(new BufferGeometry(), paperOf(colour));
    this.hub.receiveShadow = true;
    this.group.add(this.hub);
    this.show(opened);
  }

  /** Shows the same points at another place on their way. */
  show(opened: Opened): void {
    this.panel = opened.panel;
    const normals = normalsOf(this.panel.positions, this.panel.index);
    this.hands.forEach((hand, side) => {
      const of = (values: Float32Array): Float32Array => (side === 1 ? mirrored(values) : values);
      hand.geometry.setAttribute('position', new BufferAttribute(of(this.panel.positions), 3));
      hand.geometry.setAttribute('normal', new BufferAttribute(of(normals), 3));
      hand.geometry.setAttribute('openness', new BufferAttribute(this.panel.openness, 1));
    });
    this.hub.geometry.dispose();
    this.hub.geometry = hubOf(this.panel, firstTurn(this.panel));
    this.axis = opened.shift;
    for (const part of [...this.hands, this.hub]) part.position.x = this.axis;
    for (const fan of this.fans) fan.visible = opened.whole;
    this.detail('still');
    this.order(0);
  }

  paint(colour: string): void {
    for (const part of [...this.hands, this.hub, ...this.fans]) (part.material as ReturnType<typeof paperOf>).color.set(colour);
  }

  /** Puts these fans on it instead of those it had; they are there when it is wholly open. */
  dress(papers: FanPaper[], colour: string): void {
    this.undress();
    this.reach = this.extent;
    for (const { positions, openness, index } of papers) {
      const geometry = new BufferGeometry();
      geometry.setAttribute('position', new BufferAttribute(positions, 3));
      geometry.setAttribute('normal', new BufferAttribute(normalsOf(positions, index), 3));
      geometry.setAttribute('openness', new BufferAttribute(openness, 1));
      geometry.setIndex(new BufferAttribute(index, 1));
      const fan = new Mesh(geometry, paperOf(colour));
      fan.castShadow = fan.receiveShadow = true;
      fan.rotation.z = firstTurn(this.panel);
      this.fans.push(fan);
      this.group.add(fan);
      const { height, radius } = extentOf({ positions });
      this.reach = { height: Math.max(height, this.reach.height), radius: Math.max(radius, this.reach.radius) };
    }
  }

  private undress(): void {
    for (const fan of this.fans) {
      this.group.remove(fan);
      fan.geometry.dispose();
      fan.material.dispose();
    }
    this.fans = [];
  }

  detail(detail: Detail): void {
    this.hands.forEach((hand, side) => hand.geometry.setIndex(this.indices[side]![detail]));
  }

  triangles(detail: Detail): number {
    const ofFans = this.fans.reduce((sum, fan) => sum + (fan.geometry.index?.count ?? 0) / 3, 0);
    return (((this.indices[0]![detail].count / 3) * this.panel.halves) | 0) + ofFans;
  }

  /** Puts the panels nearest to the viewer first: what they hide is then not shaded. */
  order(azimuth: number): void {
    const { halves, wedge } = this.panel;
    const start = firstTurn(this.panel);
    const away = (k: number): number => -Math.cos(start + (k + 0.5) * wedge - azimuth);
    const matrix = new Matrix4();
    this.hands.forEach((hand, side) => {
      const own = Array.from({ length: Math.ceil((halves - side) / 2) }, (_, k) => 2 * k + side);
      own.sort((a, b) => away(a) - away(b));
      own.forEach((k, place) => hand.setMatrixAt(place, matrix.makeRotationZ(start + turnOf(k, wedge))));
      hand.count = own.length;
      hand.instanceMatrix.needsUpdate = true;
    });
  }

  /** Lays the soft shade of the whole on the table round it; a flat stack has next to none. */
  shadeTable(): void {
    this.clearShade();
    if (this.axis !== 0) return;
    this.shade = tableShade(skyOverTable(this.panel, firstTurn(this.panel)));
    this.group.add(this.shade.mesh);
  }

  clearShade(): void {
    if (!this.shade) return;
    this.group.remove(this.shade.mesh);
    this.shade.dispose();
    this.shade = null;
  }

  dispose(): void {
    this.clearShade();
    for (const hand of this.hands) {
      hand.geometry.dispose();
      (hand.material as ReturnType<typeof paperOf>).dispose();
      hand.dispose();
    }
    this.hub.geometry.dispose();
    this.hub.material.dispose();
    this.undress();
  }
}
