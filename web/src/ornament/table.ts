// What stands on the table, and where the viewer stands: one ornament, or all sizes in a row to scale.
import { dimensionsOf, type Dimension } from './dimensions';
import type { FanPaper } from './fans';
import { follow } from './gestures';
import { openedBy, samePoints, type Step } from './opening';
import type { Panel } from './panel';
import { Piece } from './piece';
import { stageOn, type Projection, type Stage } from './stage';
import { firstLook, framing, type Room, type Viewpoint } from './viewpoint';

/** Width of the height in words beside the ornament, pixels. */
const besidePx = 112;

export interface Standing {
  name: string;
  panel: Panel;
  colour: string;
  /** Null: on their way. */
  fans: FanPaper[] | null;
}

export interface Named {
  name: string;
  height: number;
  diameter: number;
  /** below the foot, pixels */
  x: number;
  y: number;
}

/** What is drawn over the picture, in its pixels. */
export interface Overlay {
  dimensions: Dimension[];
  names: Named[];
}

/** The table, or null where this browser draws no WebGL. */
export function tableOn(place: HTMLElement, canvas: HTMLCanvasElement, overlay: (over: Overlay) => void): Table | null {
  let table: Table | null = null;
  const stage = stageOn(canvas, (project) => table && overlay(table.overlay(project)));
  if (stage) table = new Table(place, stage);
  return table;
}

export class Table {
  private pieces: Piece[] = [];
  private standing: Standing[] = [];
  private view: Viewpoint = firstLook;
  private beforeRow: Viewpoint | null = null;
  private framed = false;
  /** The first look, while the fans are on their way. */
  private first: Viewpoint | null = null;
  private wide = 0;
  private tall = 0;
  private shading = 0;
  private readonly letGo: () => void;

  /** `place` carries the viewpoint in data-look. */
  constructor(private readonly place: HTMLElement, private readonly stage: Stage) {
    this.letGo = follow(place, {
      view: () => this.view,
      room: () => this.room(),
      look: (view) => this.look(view),
      showAll: () => this.showAll(),
    });
  }

  /** Whether finer meshes than the first are drawn in time. */
  get drawsFine(): boolean {
    return !this.stage.pace.slow && this.stage.pace.most(false) > 2_000_000;
  }

  /** Stands one ornament there. */
  one(standing: Standing): void {
    const rowBefore = this.standing.length > 1;
    const known = this.pieces[0];
    const fits = !rowBefore && known && this.standing[0] && sameMesh(this.standing[0].panel, standing.panel);
    this.standing = [standing];
    if (fits) {
      known.show({ panel: standing.panel, shift: 0, whole: true });
      known.paint(standing.colour);
      known.dress(standing.fans ?? [], standing.colour);
      clearTimeout(this.shading);
      known.shadeTable();
      this.stage.changed();
    } else {
      this.stand();
    }
    if (rowBefore && this.beforeRow) this.look(this.beforeRow);
    this.frameFirst();
  }

  /** Puts fans on the one ornament. Those that were on their way at the first look widen it, unless she has moved. */
  dress(fans: FanPaper[] | null): void {
    const piece = this.pieces[0], standing = this.standing[0];
    if (!piece || !standing || this.pieces.length > 1 || standing.fans === fans) return;
    this.standing = [{ ...standing, fans }];
    piece.dress(fans ?? [], standing.colour);
    this.stage.changed();
    if (fans === null) return;
    if (standing.fans === null && this.first === this.view) this.showAll();
    this.first = null;
  }

  /** All sizes in a row, to scale; framed, as the row was asked for. */
  row(standing: Standing[]): void {
    if (this.standing.length === 1) this.beforeRow = this.view;
    const fresh = this.standing.length <= 1;
    this.standing = standing;
    this.stand();
    if (fresh) this.showAll();
  }

  /** Shows the one ornament at a share of its opening. */
  open(steps: Step[], share: number): void {
    const piece = this.pieces[0], standing = this.standing[0];
    if (!piece || !standing || this.pieces.length > 1) return;
    const opened = openedBy(steps, share);
    if (!samePoints(opened.panel, standing.panel)) return;
    piece.show(opened);
    this.stage.moving();
    this.settleShade();
    this.stage.changed();
  }

  showAll(): void {
    const words = this.pieces.length > 1 ? 30 : besidePx;
    this.look(framing(this.view, this.room(), Math.max(80, this.wide - 2 * words) / Math.max(1, this.tall)));
  }

  resize(wide: number, tall: number): void {
    [this.wide, this.tall] = [wide, tall];
    this.stage.resize(wide, tall);
    this.frameFirst();
  }

  overlay(project: Projection): Overlay {
    const { azimuth } = this.view;
    if (this.pieces.length === 1) {
      const { height, radius } = this.pieces[0]!.extent;
      return { dimensions: dimensionsOf(height, radius, azimuth, project), names: [] };
    }
    const before = 1.15 * this.room().halfDepth;
    const names = this.pieces.map((piece, k) => {
      const { height, radius } = piece.extent;
      const foot = project([before * Math.cos(azimuth), piece.group.position.y + before * Math.sin(azimuth), 0]);
      return { name: this.standing[k]!.name, height, diameter: 2 * radius, x: foot.x, y: foot.y };
    });
    return { dimensions: [], names };
  }

  dispose(): void {
    this.letGo();
    clearTimeout(this.shading);
    this.stage.dispose();
  }

  private stand(): void {
    const share = Math.max(1, this.standing.length);
    const most = (moves: boolean, panel: Panel): number =>
      Math.max(40, Math.floor(this.stage.pace.most(moves) / (panel.halves * share)));
    this.pieces = this.standing.map(({ panel, colour }) =>
      new Piece({ panel, shift: 0, whole: true }, colour, { still: most(false, panel), moving: most(true, panel) }));
    this.pieces.forEach((piece, k) => piece.dress(this.standing[k]!.fans ?? [], this.standing[k]!.colour));
    const gap = 0.4 * Math.max(0, ...this.pieces.map((piece) => piece.reach.radius));
    let at = -this.halfWidth();
    for (const piece of this.pieces) {
      piece.group.position.y = at + piece.reach.radius;
      at += 2 * piece.reach.radius + gap;
      piece.shadeTable();
    }
    this.stage.stand(this.pieces, this.room());
  }

  private halfWidth(): number {
    const radii = this.pieces.map((piece) => piece.reach.radius);
    const gap = 0.4 * Math.max(0, ...radii);
    return radii.reduce((sum, radius) => sum + radius, 0) + (gap * Math.max(0, radii.length - 1)) / 2;
  }

  private room(): Room {
    const most = (of: (piece: Piece) => number): number => Math.max(1, ...this.pieces.map(of));
    return {
      halfWidth: this.halfWidth(),
      halfDepth: most((piece) => piece.reach.radius),
      height: most((piece) => piece.reach.height),
    };
  }

  private look(view: Viewpoint): void {
    this.view = view;
    const { azimuth, elevation, distance, target } = view;
    this.place.dataset['look'] = [azimuth, elevation, distance, ...target].map((value) => value.toFixed(4)).join(' ');
    this.stage.look(view);
  }

  private frameFirst(): void {
    if (this.framed || this.wide === 0 || this.pieces.length === 0) return;
    this.framed = true;
    this.showAll();
    this.first = this.standing[0]?.fans === null ? this.view : null;
  }

  /** The shade on the table follows once the shape has come to rest. */
  private settleShade(): void {
    this.pieces[0]?.clearShade();
    clearTimeout(this.shading);
    this.shading = window.setTimeout(() => {
      for (const piece of this.pieces) piece.shadeTable();
      this.stage.request();
    }, 120);
  }
}

function sameMesh(a: Panel, b: Panel): boolean {
  return samePoints(a, b) && a.index.every((point, k) => point === b.index[k]);
}
