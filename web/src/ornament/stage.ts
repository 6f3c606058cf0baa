// The table and what stands on it, drawn only when something changed. While it moves, and on graphics without a
// processor of their own, fewer triangles are drawn; at rest a finer picture follows.
import {
  DirectionalLight, HemisphereLight, Mesh, PCFShadowMap, PerspectiveCamera, PlaneGeometry, Scene, ShadowMaterial,
  Vector3, WebGLRenderer,
} from 'three';
import { Pace } from './pace';
import type { Piece } from './piece';
import { eyeOf, lensDeg, type Room, type Viewpoint } from './viewpoint';

/** A place on the table turned into pixels of the picture, from its top left corner. */
export type Projection = (place: [number, number, number]) => { x: number; y: number };

const restMs = 220;

/** Empty where this browser draws no WebGL. */
export function stageOn(canvas: HTMLCanvasElement, drawn: (project: Projection) => void): Stage | null {
  try {
    return new Stage(canvas, drawn);
  } catch {
    return null;
  }
}

export class Stage {
  readonly pace: Pace;
  private readonly renderer: WebGLRenderer;
  private readonly scene = new Scene();
  private readonly camera = new PerspectiveCamera(lensDeg, 1, 1, 1e5);
  private readonly sky = new HemisphereLight(0xfbfaff, 0xe2d3bd, 4.4);
  private readonly windowLight = new DirectionalLight(0xfff1dc, 3.2);
  private readonly floor = new Mesh(new PlaneGeometry(1, 1), new ShadowMaterial({ opacity: 0.16, depthWrite: false }));
  private pieces: Piece[] = [];
  private view: Viewpoint | null = null;
  private movedAt = -1e9;
  private frame = 0;
  private rest = 0;
  private gone = false;
  private wide = 1;
  private tall = 1;

  constructor(canvas: HTMLCanvasElement, private readonly drawn: (project: Projection) => void) {
    this.renderer = new WebGLRenderer({ canvas, alpha: true, antialias: true, powerPreference: 'low-power' });
    this.pace = new Pace(this.renderer.getContext() as WebGL2RenderingContext);
    // Graphics may be taken away, by a sleeping laptop for one, and given back.
    canvas.addEventListener('webglcontextrestored', () => this.changed());
    this.renderer.shadowMap.enabled = true;
    this.renderer.shadowMap.type = PCFShadowMap;
    this.renderer.shadowMap.autoUpdate = false;
    this.camera.up.set(0, 0, 1);
    this.floor.receiveShadow = true;
    this.floor.position.z = -0.4;
    this.floor.renderOrder = -2;
    this.sky.position.set(0, 0, 1);
    this.windowLight.castShadow = true;
    this.windowLight.shadow.mapSize.setScalar(this.pace.slow ? 768 : 1536);
    this.windowLight.shadow.radius = 7;
    this.scene.add(this.sky, this.windowLight, this.windowLight.target, this.floor);
  }

  /** Stands these on the table instead of what stood there. */
  stand(pieces: Piece[], room: Room): void {
    for (const piece of this.pieces) {
      this.scene.remove(piece.group);
      if (!pieces.includes(piece)) piece.dispose();
    }
    this.pieces = pieces;
    for (const piece of pieces) this.scene.add(piece.group);
    this.light(room);
    this.changed();
  }

  /** What stands there has changed its shape or colour. */
  changed(): void {
    this.renderer.shadowMap.needsUpdate = true;
    this.request();
  }

  look(view: Viewpoint): void {
    this.view = view;
    this.moving();
  }

  /** Draws soon, with few triangles; finer when it has come to rest. */
  moving(): void {
    this.movedAt = performance.now();
    this.request();
  }

  resize(wide: number, tall: number): void {
    [this.wide, this.tall] = [Math.max(1, wide), Math.max(1, tall)];
    this.camera.aspect = this.wide / this.tall;
    this.request();
  }

  dispose(): void {
    this.gone = true;
    cancelAnimationFrame(this.frame);
    clearTimeout(this.rest);
    for (const piece of this.pieces) piece.dispose();
    this.floor.geometry.dispose();
    this.floor.material.dispose();
    this.renderer.dispose();
  }

  request(): void {
    if (this.frame === 0 && !this.gone) this.frame = requestAnimationFrame(() => this.tick());
  }

  private light(room: Room): void {
    const reach = 1.15 * Math.hypot(room.halfWidth, room.halfDepth, room.height);
    const middle = new Vector3(0, 0, room.height / 2);
    this.windowLight.target.position.copy(middle);
    // The window stands to the left of the first look, a little in front, and high.
    this.windowLight.position.copy(new Vector3(0.62, -0.72, 0.9).normalize().multiplyScalar(2 * reach).add(middle));
    const { shadow } = this.windowLight;
    Object.assign(shadow.camera, { left: -reach, right: reach, top: reach, bottom: -reach, near: 0.1 * reach, far: 4 * reach });
    shadow.camera.updateProjectionMatrix();
    shadow.normalBias = 0.0035 * reach;
    shadow.bias = -0.0006;
    this.floor.scale.setScalar(8 * reach);
  }

  private tick(): void {
    this.frame = 0;
    if (this.gone || !this.view || this.pieces.length === 0) return;
    if (this.pace.busy()) {
      window.setTimeout(() => this.request(), 8);
      return;
    }
    const resting = performance.now() - this.movedAt;
    const moves = resting < restMs;
    this.draw(this.view, moves);
    clearTimeout(this.rest);
    if (moves) this.rest = window.setTimeout(() => this.request(), restMs - resting + 10);
  }

  private draw(view: Viewpoint, moves: boolean): void {
    const detail = moves ? 'moving' : 'still';
    const ratio = this.pace.ratio(moves);
    if (this.renderer.getPixelRatio() !== ratio) this.renderer.setPixelRatio(ratio);
    this.renderer.setSize(this.wide, this.tall, false);
    const eye = eyeOf(view);
    this.camera.position.set(...eye);
    this.camera.near = view.distance / 50;
    this.camera.far = view.distance * 20;
    this.camera.lookAt(...view.target);
    this.camera.updateProjectionMatrix();
    let triangles = 0;
    for (const piece of this.pieces) {
      piece.detail(detail);
      piece.order(Math.atan2(eye[1] - piece.group.position.y, eye[0]));
      triangles += piece.triangles(detail);
    }
    const started = performance.now();
    this.renderer.render(this.scene, this.camera);
    this.pace.drew(started, triangles);
    this.drawn((place) => this.project(place));
  }

  private project(place: [number, number, number]): { x: number; y: number } {
    const point = new Vector3(...place).project(this.camera);
    return { x: ((point.x + 1) / 2) * this.wide, y: ((1 - point.y) / 2) * this.tall };
  }
}
