// Arrow keys as distances: 1 mm, 10 mm with Shift, 0.1 mm with Alt.
import type { Spot } from './outline';

const ways: Record<string, Spot> = {
  ArrowLeft: { x: -1, z: 0 },
  ArrowRight: { x: 1, z: 0 },
  ArrowUp: { x: 0, z: 1 },
  ArrowDown: { x: 0, z: -1 },
};

export function arrowOf(event: KeyboardEvent): Spot | null {
  const way = ways[event.key];
  if (!way || event.ctrlKey || event.metaKey) return null;
  const far = event.shiftKey ? 10 : event.altKey ? 0.1 : 1;
  return { x: way.x * far, z: way.z * far };
}
