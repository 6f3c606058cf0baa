// A picture made ready to be shown: upright, no larger than a screen needs, so that it is drawn quickly.
import { MOST_PIXELS, sizeIn } from './picture_size';

export interface Picture {
  blob: Blob;
  /** Of the file's own pixels; the picture itself may have fewer. */
  width: number;
  height: number;
}

/** Most pixels along the longer side. */
const MOST_SIDE = 1800;

async function decoded(file: Blob): Promise<HTMLImageElement> {
  const address = URL.createObjectURL(file);
  try {
    const image = new Image();
    image.src = address;
    await image.decode();
    return image;
  } finally {
    URL.revokeObjectURL(address);
  }
}

/**
 * `page`: what the studio says of the file's size; without it the file itself is looked at. SVG files are shown only when
 * the studio has read them. Null when it cannot be shown.
 */
export async function pictureOf(file: Blob, page: { width: number; height: number } | null): Promise<Picture | null> {
  const bytes = new Uint8Array(await file.slice(0, 1 << 20).arrayBuffer());
  const raster = sizeIn(bytes);
  if (raster ? raster.width * raster.height > MOST_PIXELS : !page) return null;
  const typed = raster ? file : new Blob([file], { type: 'image/svg+xml' });
  const image = await decoded(typed).catch(() => null);
  const width = page?.width ?? image?.naturalWidth ?? 0, height = page?.height ?? image?.naturalHeight ?? 0;
  if (!image || width <= 0 || height <= 0) return null;
  const share = Math.min(raster ? 1 : Infinity, MOST_SIDE / Math.max(width, height));
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(width * share));
  canvas.height = Math.max(1, Math.round(height * share));
  canvas.getContext('2d')?.drawImage(image, 0, 0, canvas.width, canvas.height);
  const kind = raster?.kind === 'jpeg' ? 'image/jpeg' : 'image/png';
  const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done, kind, 0.85));
  return blob && { blob, width, height };
}
