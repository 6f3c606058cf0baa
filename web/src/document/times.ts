// How long it takes from the pointer's event to the opened outline on screen; kept only when the address ends in ?bench.

declare global {
  interface Window {
    /** Milliseconds, one for each event that changed the outline. */
    fanwrightTimes?: number[];
  }
}

const kept: number[] | null = typeof location !== 'undefined' && new URLSearchParams(location.search).has('bench') ? [] : null;
if (kept) window.fanwrightTimes = kept;

let waiting: { revision: number; since: number }[] = [];

export const times = {
  /** An event that happened at `since` (clock of performance.now) led to `revision`. */
  moved(revision: number, since: number): void {
    if (kept) waiting.push({ revision, since });
  },
  /** The form of `revision` is in the page's tree and is painted with the next frame. */
  shown(revision: number): void {
    if (!kept || waiting.length === 0) return;
    // A task begun within the frame runs once that frame has been handed on to be painted.
    requestAnimationFrame(() => setTimeout(() => this.painted(revision, performance.now()), 0));
  },
  painted(revision: number, now: number): void {
    for (const event of waiting) if (event.revision <= revision) kept?.push(now - event.since);
    waiting = waiting.filter((event) => event.revision > revision);
  },
};
