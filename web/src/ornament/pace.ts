// How much this machine draws in time: found out from its own frames. Software graphics take 0.3 s for 46,000 triangles.

const movingMs = 60;
const stillMs = 700;

/** Whether the name of a renderer says that the processor does the drawing. */
export function drawnByProcessor(name: string): boolean {
  return /swiftshader|llvmpipe|software|basic render/i.test(name);
}

export class Pace {
  readonly slow: boolean;
  /** triangles a millisecond */
  private rate: number;
  private fence: WebGLSync | null = null;

  constructor(private readonly gl: WebGL2RenderingContext) {
    const told = gl.getExtension('WEBGL_debug_renderer_info');
    this.slow = drawnByProcessor(told ? String(gl.getParameter(told.UNMASKED_RENDERER_WEBGL)) : '');
    this.rate = this.slow ? 150 : 20_000;
  }

  /** Triangles that may be drawn in one frame. */
  most(moves: boolean): number {
    return Math.max(6_000, this.rate * (moves ? movingMs : stillMs));
  }

  /** Pixels for each pixel of the page. */
  ratio(moves: boolean): number {
    const own = Math.min(window.devicePixelRatio || 1, 2);
    return this.slow && moves ? Math.min(own, 0.75) : this.slow ? Math.min(own, 1.5) : own;
  }

  /** Whether the frame before is still being drawn. */
  busy(): boolean {
    if (!this.fence) return false;
    const state = this.gl.clientWaitSync(this.fence, 0, 0);
    if (state === this.gl.TIMEOUT_EXPIRED) return true;
    this.gl.deleteSync(this.fence);
    this.fence = null;
    return false;
  }

  /** A frame of so many triangles was begun at `started` (performance.now()). */
  drew(started: number, triangles: number): void {
    this.fence = this.gl.fenceSync(this.gl.SYNC_GPU_COMMANDS_COMPLETE, 0);
    this.gl.flush();
    const look = (): void => {
      if (this.busy()) {
        window.setTimeout(look, 4);
        return;
      }
      // A page in the background is told late.
      if (document.hidden) return;
      const rate = triangles / Math.max(1, performance.now() - started);
      this.rate += 0.5 * (rate - this.rate);
    };
    window.setTimeout(look, 4);
  }
}
