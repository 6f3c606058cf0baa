// What is asked of a drawing that is taken over, as the studio's address for it takes it.

export interface Asked {
  what: 'found out' | 'whole' | 'half';
  side: 'found out' | 'left' | 'right' | 'mean';
  shows: 'opened' | 'flat';
  scaled: 'as it comes' | 'height' | 'width' | 'two points';
  /** mm, foot to top; undefined: not said yet. */
  height: number | undefined;
  /** mm, both sides. */
  width: number | undefined;
  /** Between the two points, mm. */
  apart: number | undefined;
  /** Pixels of the file, from its upper left corner. */
  points: [FilePoint, FilePoint] | null;
}

export interface FilePoint {
  x: number;
  y: number;
}

export const asUsual = (): Asked => ({
  what: 'found out', side: 'found out', shows: 'opened', scaled: 'as it comes', height: undefined, width: undefined, apart: undefined, points: null,
});

function scaleWords(asked: Asked): [string, string][] {
  if (asked.scaled === 'height' && asked.height !== undefined) return [['height', String(asked.height)]];
  if (asked.scaled === 'width' && asked.width !== undefined) return [['width', String(asked.width)]];
  if (asked.scaled !== 'two points' || asked.apart === undefined || !asked.points) return [];
  const [from, to] = asked.points;
  return [['between', `${[from.x, from.y, to.x, to.y].map((value) => value.toFixed(3)).join(',')}=${asked.apart}`]];
}

/** `figure`: that one alone, from 1, with its leaf. */
export function queryOf(asked: Asked, name: string, figure?: number): string {
  const words: [string, string][] = [['name', name], ...scaleWords(asked)];
  if (asked.what !== 'found out') words.push(['what', asked.what]);
  if (asked.side !== 'found out' && asked.what !== 'half') words.push(['side', asked.side]);
  if (asked.shows === 'flat') words.push(['shows', 'flat']);
  if (figure !== undefined) words.push(['figure', String(figure)]);
  return new URLSearchParams(words).toString();
}
