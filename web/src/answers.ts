// What the studio's server answers. Lengths mm, angles degrees, whatever unit the design file uses.

/** [x, z] or [r, z]: out from the spine, up from the foot. */
export type Place = [number, number];

export type Json = null | boolean | number | string | Json[] | { [key: string]: Json };

export interface Problem {
  sentence: string;
  /** JSON pointer into the design, or ''. */
  where: string;
}

export interface Form {
  size: string;
  shows: 'opened' | 'flat';
  /** Half silhouette of the opened ornament along its edge. */
  outline: Place[];
  /** The outline asked for; only when the design shows the opened ornament. */
  wanted: Place[] | null;
  /** Half of the flat leaf. */
  leaf: Place[];
  rows: FormRow[];
  height_mm: number;
  diameter_mm: number;
  spread: { height_mm: number; diameter_mm: number } | null;
  hub_radius_mm: number;
  foot_lift_mm: number;
  lock: { lower: number; upper: number; ratio: number }[];
  leaves: number;
  opening_deg: number;
  colour: string;
  /** Address of the mesh, or null while only an outline is there. */
  mesh: string | null;
}

export interface FormRow {
  index: number;
  side: 'inside' | 'between';
  flat: [Place, Place];
  width: number;
  opened: [Place, Place];
}

export interface ShapeAnswer {
  revision: number;
  stage: 'estimate' | 'settled';
  problem: Problem | null;
  form?: Form;
}

export interface Openings {
  revision: number;
  size: string;
  shares: number[];
}

export interface Finding {
  id: string;
  verdict: 'good' | 'note' | 'warning' | 'fails';
  value: number | null;
  unit: string;
  limit: number | null;
  limit_source: string;
  sentence: string;
  remedy: string | null;
  where: string;
  changes: { at: string; after?: Json }[] | null;
}

export interface Checks {
  revision: number;
  size: string;
  findings: Finding[];
}

export interface TakesOfSize {
  name: string;
  leaves: number;
  grammage: number;
  height_mm: number;
  diameter_mm: number;
  sheets: number;
  per_sheet: number;
  sheet: string;
  layouts: { sheets: number; svg: string }[];
  glue_g: number;
  joints: number;
  hours: number;
  cost: { currency: string; materials: number; labour: number; total: number; price: number | null } | null;
  weight_g: number;
  /** Why it was not counted out in full, in a sentence. */
  problem?: string | null;
}

export interface Takes {
  revision: number;
  sizes: TakesOfSize[];
}

export interface Job {
  id: string;
  kind: string;
  /** 0..1 */
  share: number;
  doing: string;
  done: boolean;
  sentence?: string;
}

export interface DiskChange {
  fingerprint: string;
  text: string;
}

export interface Starter {
  id: string;
  title: string;
  text: string;
  outline: Place[];
}

export interface BenchAnswer {
  folder: string;
  units_hint: 'mm' | 'in';
  files: { name: string; title: string; height_mm: number | null; changed: string | number }[];
  starters: Starter[];
  open: { id: string; name: string | null; title: string; unsaved: boolean }[];
  first: string | null;
}

export interface DesignAnswer {
  id: string;
  /** Null: never saved yet. */
  name: string | null;
  text: string;
  /** Of the file as it was last read or saved; null: there is none. */
  fingerprint: string | null;
  /** Gestures since `text`, and {"saved": fingerprint} wherever the file was written. */
  journal: Json[] | null;
  /** The newest a page has asked a shape for. */
  revision: number;
  /** The file's text, where it has changed since it was last read or saved. */
  disk_text?: string;
}

export interface Contour {
  start: Place;
  closed: boolean;
  segments: { to: Place; c1?: Place; c2?: Place }[];
}

export interface OutlineAnswer {
  contours: Contour[];
  path: string;
}

/** Figures found in a drawing, a scan or a photo, largest first. */
export interface ImportAnswer {
  kind: 'SVG' | 'PNG' | 'JPEG';
  /** What the figures lie on, in the file's pixels. */
  page: { width: number; height: number };
  notes: string[];
  figures: Figure[];
}

export interface Figure {
  title: string;
  /** Of a design file. */
  text: string;
  outline: Place[];
  cut_outs: Place[][];
  points: number;
  size_mm: { height: number; width: number };
  what: 'whole' | 'half';
  /** By which the axis leant to the left. */
  tilt_deg: number;
  asymmetry_mm: { mean: number; most: number; at_height: number };
  tolerance_mm: number;
  changed: string[];
  marks: { at: Place; sentence: string }[];
  /** Path data in leaf coordinates: as it was in the file, what was filled, what was dropped. */
  found: string;
  filled: string;
  dropped: string;
  /** From the file's pixels, y down, to the leaf: SVG's matrix(). */
  placing: Placing;
}

export type Placing = [number, number, number, number, number, number];
