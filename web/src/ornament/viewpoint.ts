// Where the viewer stands: on a ball round the middle of what is seen. Only the maker moves it.

export interface Viewpoint {
  /** turned round the axis, radians */
  azimuth: number;
  /** above the horizon, radians */
  elevation: number;
  /** from the middle, mm */
  distance: number;
  /** the middle, mm */
  target: [number, number, number];
}

/** A box round what is to be seen, standing on the table: half of its width and depth, and its height, mm. */
export interface Room {
  halfWidth: number;
  halfDepth: number;
  height: number;
}

/** Height of the picture's angle, degrees: a long lens, so that a tall piece does not lean. */
export const lensDeg = 20;

const highest = (86 * Math.PI) / 180;
const lowest = (-12 * Math.PI) / 180;

export function turned(from: Viewpoint, azimuth: number, elevation: number): Viewpoint {
  return {
    ...from,
    azimuth: from.azimuth + azimuth,
    elevation: Math.min(highest, Math.max(lowest, from.elevation + elevation)),
  };
}

/** Nearer by a factor above 1, farther below; kept within what the room allows. */
export function nearer(from: Viewpoint, factor: number, room: Room): Viewpoint {
  const size = Math.hypot(room.halfWidth, room.halfDepth, room.height / 2);
  return { ...from, distance: Math.min(40 * size, Math.max(1.15 * size, from.distance / factor)) };
}

/** Moves the middle in the picture's plane: to the right and up by shares of the picture's height. */
export function moved(from: Viewpoint, right: number, up: number): Viewpoint {
  const seen = 2 * from.distance * Math.tan((lensDeg * Math.PI) / 360);
  const [x, y, z] = from.target;
  const across = right * seen;
  return {
    ...from,
    target: [x - across * Math.sin(from.azimuth), y + across * Math.cos(from.azimuth), z + up * seen],
  };
}

/**
 * The same direction, so far away that the whole room and the lines round it are in the picture. `aspect`: width to
 * height of what is free for it, without the words beside it.
 */
export function framing(from: Viewpoint, room: Room, aspect: number): Viewpoint {
  const half = (lensDeg * Math.PI) / 360;
  const wide = 1.05 * room.halfWidth + 0.22 * room.halfDepth;
  const tall = 0.6 * room.height * Math.cos(from.elevation) + 1.3 * room.halfDepth * Math.abs(Math.sin(from.elevation));
  const away = Math.max(tall / Math.tan(half), wide / (Math.tan(half) * aspect)) + 0.6 * room.halfDepth;
  return { ...from, distance: away, target: [0, 0, 0.48 * room.height - 0.3 * room.halfDepth * Math.sin(from.elevation)] };
}

/** Eye of a viewpoint, mm. */
export function eyeOf(view: Viewpoint): [number, number, number] {
  const flat = view.distance * Math.cos(view.elevation);
  return [
    view.target[0] + flat * Math.cos(view.azimuth),
    view.target[1] + flat * Math.sin(view.azimuth),
    view.target[2] + view.distance * Math.sin(view.elevation),
  ];
}

export const firstLook: Viewpoint = { azimuth: 0, elevation: (17 * Math.PI) / 180, distance: 1000, target: [0, 0, 0] };
