// How large a picture is, from the first bytes of its file: a browser that decodes a huge one takes all memory first.

export interface PictureSize {
  kind: 'png' | 'jpeg';
  width: number;
  height: number;
}

/** Largest picture shown; the studio reads no larger one either. */
export const MOST_PIXELS = 5e7;

const PNG = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];

/** ISO/IEC 15948, section 11.2.2: IHDR is the first chunk. */
function inPng(view: DataView): PictureSize | null {
  if (view.byteLength < 24 || !PNG.every((byte, i) => view.getUint8(i) === byte)) return null;
  return { kind: 'png', width: view.getUint32(16), height: view.getUint32(20) };
}

/** ITU-T T.81, annex B: the frame header, markers C0 to CF without C4, C8 and CC. */
function inJpeg(view: DataView): PictureSize | null {
  if (view.byteLength < 4 || view.getUint16(0) !== 0xffd8) return null;
  for (let at = 2; at + 9 <= view.byteLength; at += 2 + view.getUint16(at + 2)) {
    while (view.getUint8(at) === 0xff && view.getUint8(at + 1) === 0xff && at + 10 <= view.byteLength) at += 1;
    const marker = view.getUint8(at + 1);
    if (view.getUint8(at) !== 0xff || marker === 0xd9 || marker === 0xda) return null;
    if (marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker))
      return { kind: 'jpeg', width: view.getUint16(at + 7), height: view.getUint16(at + 5) };
  }
  return null;
}

/** Null when it is neither PNG nor JPEG, or its head is damaged. */
export function sizeIn(bytes: Uint8Array): PictureSize | null {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  return inPng(view) ?? inJpeg(view);
}
