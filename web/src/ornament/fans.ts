// Fans in their seats as the server sends them: magic "FWF1", a head of JSON, then the paper of each fan, little endian.
import type { Place, Problem } from '../answers';

/** The paper of one fan. */
export interface FanPaper {
  name: string;
  /** x, y, z of each point, mm, ornament axes */
  positions: Float32Array;
  /** share of the sky each point sees, 0..1 */
  openness: Float32Array;
  /** three points a triangle */
  index: Uint32Array;
}

/** Where a fan came to sit. */
export interface SeatTold {
  /** which of the design's fans */
  fan: number;
  taken_deg: number;
  most_deg: number;
  azimuth_deg: number;
  limited_by: string | null;
  /** its gathered end: from the axis and up */
  at: Place;
}

export interface Fans {
  /** Height from which seats are measured down, mm. */
  from_mm: number;
  /** Whether that is a neck; else the top. */
  neck: boolean;
  /** Of fans that cannot sit, or cannot be made. */
  problems: Problem[];
  figure: { width_mm: number; depth_mm: number; height_mm: number } | null;
  seats: SeatTold[];
  papers: FanPaper[];
}

type Head = Omit<Fans, 'papers'> & { fans: { name: string; points: number; triangles: number }[] };

const cutShort = 'The fans that the studio sent are cut short.';

/** Throws with a sentence when the bytes are something else. */
export function readFans(bytes: ArrayBuffer): Fans {
  const view = new DataView(bytes);
  if (bytes.byteLength < 8 || view.getUint32(0, false) !== 0x46574631) throw new Error('What the studio sent are no fans.');
  const headBytes = view.getUint32(4, true);
  if (headBytes % 4 !== 0 || 8 + headBytes > bytes.byteLength) throw new Error(cutShort);
  const { fans, ...told } = JSON.parse(new TextDecoder().decode(new Uint8Array(bytes, 8, headBytes))) as Head;
  let at = 8 + headBytes;
  const papers = fans.map(({ name, points, triangles }): FanPaper => {
    const padded = Math.ceil(points / 4) * 4;
    if (at + 12 * points + padded + 12 * triangles > bytes.byteLength) throw new Error(cutShort);
    const positions = new Float32Array(bytes, at, 3 * points);
    const openness = Float32Array.from(new Uint8Array(bytes, at + 12 * points, points), (value) => value / 255);
    const index = new Uint32Array(bytes, at + 12 * points + padded, 3 * triangles);
    if (index.some((point) => point >= points)) throw new Error(cutShort);
    at += 12 * points + padded + 12 * triangles;
    return { name, positions, openness, index };
  });
  return { ...told, papers };
}

/** Address of the fans of any size of a design, as of that revision of its text. */
export function fansAddress(design: string, revision: number, size: string): string {
  return `/api/designs/${encodeURIComponent(design)}/fans?revision=${revision}&size=${encodeURIComponent(size)}`;
}
