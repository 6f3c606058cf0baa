// Meshes as the server sends them, kept while they may be asked for again.
import { api } from '../api';
import { readPanel, type Panel } from './panel';
import type { Step } from './opening';

const keptMost = 40;

export class Meshes {
  private readonly kept = new Map<string, Promise<Panel>>();

  /** The panel at this address; asked for once. */
  panel(address: string): Promise<Panel> {
    const known = this.kept.get(address);
    if (known) return known;
    const coming = api.mesh(address).then(readPanel);
    this.kept.set(address, coming);
    coming.catch(() => this.kept.delete(address));
    for (const oldest of this.kept.keys()) {
      if (this.kept.size <= keptMost) break;
      this.kept.delete(oldest);
    }
    return coming;
  }

  fine(address: string): Promise<Panel> {
    return this.panel(`${address}&detail=fine`);
  }

  /** All openings, the narrowest first. */
  async steps(address: string, shares: number[]): Promise<Step[]> {
    const goingUp = [...shares].sort((a, b) => a - b);
    return Promise.all(
      goingUp.map(async (share) => ({
        share,
        panel: await this.panel(share >= 1 ? address : `${address}&opening=${share}`),
      })),
    );
  }
}

/** Address of the mesh of any size of a design, as of that revision of its text. */
export function meshAddress(design: string, revision: number, size: string): string {
  return `/api/designs/${encodeURIComponent(design)}/mesh?revision=${revision}&size=${encodeURIComponent(size)}`;
}
