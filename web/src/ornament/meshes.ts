// Meshes as the server sends them, kept while they may be asked for again.
import { api } from '../api';
import { read_panel, type Panel } from './panel';
import type { Step } from './opening';

const kept_most = 40;

export class Meshes {
  private readonly kept = new Map<string, Promise<Panel>>();

  /** The panel at this address; asked for once. */
  panel(address: string): Promise<Panel> {
    const known = this.kept.get(address);
    if (known) return known;
    const coming = api.mesh(address).then(read_panel);
    this.kept.set(address, coming);
    coming.catch(() => this.kept.delete(address));
    for (const oldest of this.kept.keys()) {
      if (this.kept.size <= kept_most) break;
      this.kept.delete(oldest);
    }
    return coming;
  }

  fine(address: string): Promise<Panel> {
    return this.panel(`${address}&detail=fine`);
  }

  /** All openings, the narrowest first. */
  async steps(address: string, shares: number[]): Promise<Step[]> {
    const going_up = [...shares].sort((a, b) => a - b);
    return Promise.all(
      going_up.map(async (share) => ({
        share,
        panel: await this.panel(share >= 1 ? address : `${address}&opening=${share}`),
      })),
    );
  }
}

/** Address of the mesh of any size of a design, as of that revision of its text. */
export function mesh_address(design: string, revision: number, size: string): string {
  return `/api/designs/${encodeURIComponent(design)}/mesh?revision=${revision}&size=${encodeURIComponent(size)}`;
}
