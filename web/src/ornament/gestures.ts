// Turning and zooming by mouse, touch and keys.
import { moved, nearer, turned, type Room, type Viewpoint } from './viewpoint';

export interface Seen {
  view: () => Viewpoint;
  room: () => Room;
  /** shows a new viewpoint */
  look: (view: Viewpoint) => void;
  showAll: () => void;
}

const turnPerKey = (5 * Math.PI) / 180;
const zoomPerKey = 1.15;

/** What a key does; false when it is none of ours. Arrows turn, Shift with arrows moves, + and - zoom, Home shows all. */
export function press(key: string, shift: boolean, seen: Seen): boolean {
  const view = seen.view();
  const arrows: Record<string, [number, number]> = {
    ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1],
  };
  const arrow = arrows[key];
  if (arrow && shift) seen.look(moved(view, 0.05 * arrow[0], 0.05 * arrow[1]));
  else if (arrow) seen.look(turned(view, turnPerKey * arrow[0], turnPerKey * arrow[1]));
  else if (key === '+' || key === '=') seen.look(nearer(view, zoomPerKey, seen.room()));
  else if (key === '-' || key === '_') seen.look(nearer(view, 1 / zoomPerKey, seen.room()));
  else if (key === 'Home' || key === '0') seen.showAll();
  else return false;
  return true;
}

interface Finger {
  x: number;
  y: number;
}

/** Listens on `place`; what it returns stops that. */
export function follow(place: HTMLElement, seen: Seen): () => void {
  const fingers = new Map<number, Finger>();
  const stop = new AbortController();
  const listen = { signal: stop.signal };

  const spread = (): { apart: number; x: number; y: number } | null => {
    const [a, b] = [...fingers.values()];
    return a && b ? { apart: Math.hypot(a.x - b.x, a.y - b.y), x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 } : null;
  };
  const pinch = (before: { apart: number; x: number; y: number }): void => {
    const now = spread();
    if (!now || before.apart === 0) return;
    const tall = place.clientHeight || 1;
    const closer = nearer(seen.view(), now.apart / before.apart, seen.room());
    seen.look(moved(closer, (before.x - now.x) / tall, (now.y - before.y) / tall));
  };

  place.addEventListener('pointerdown', (event) => {
    if (event.pointerType === 'mouse' && event.button > 1) return;
    place.setPointerCapture(event.pointerId);
    fingers.set(event.pointerId, { x: event.clientX, y: event.clientY });
  }, listen);
  place.addEventListener('pointermove', (event) => {
    const finger = fingers.get(event.pointerId);
    if (!finger) return;
    const before = spread();
    const dx = event.clientX - finger.x, dy = event.clientY - finger.y;
    Object.assign(finger, { x: event.clientX, y: event.clientY });
    const tall = place.clientHeight || 1;
    if (before) pinch(before);
    else if (event.shiftKey || event.buttons === 4) seen.look(moved(seen.view(), -dx / tall, dy / tall));
    else seen.look(turned(seen.view(), (-dx / tall) * Math.PI, (dy / tall) * Math.PI));
  }, listen);
  for (const over of ['pointerup', 'pointercancel', 'lostpointercapture'] as const) {
    place.addEventListener(over, (event) => fingers.delete(event.pointerId), listen);
  }
  place.addEventListener('wheel', (event) => {
    event.preventDefault();
    const step = event.deltaMode === WheelEvent.DOM_DELTA_LINE ? 16 * event.deltaY : event.deltaY;
    seen.look(nearer(seen.view(), Math.exp(-Math.max(-240, Math.min(240, step)) / 600), seen.room()));
  }, { ...listen, passive: false });
  place.addEventListener('keydown', (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (press(event.key, event.shiftKey, seen)) event.preventDefault();
  }, listen);
  return () => stop.abort();
}
