import { expect, test } from 'vitest';
import { sizeIn } from './picture_size';

const bytes = (...parts: (number[] | string)[]) =>
  new Uint8Array(parts.flatMap((part) => (typeof part === 'string' ? [...part].map((letter) => letter.charCodeAt(0)) : part)));

const png = bytes([0x89], 'PNG\r\n', [0x1a, 0x0a, 0, 0, 0, 13], 'IHDR', [0, 0, 0x75, 0x30, 0, 0, 0x01, 0x02, 8, 0, 0, 0, 0]);
/** A comment, then a progressive frame of 640 by 480. */
const jpeg = bytes([0xff, 0xd8, 0xff, 0xfe, 0, 5, 1, 2, 3, 0xff, 0xc2, 0, 17, 8, 1, 0xe0, 2, 0x80, 3, 1, 0x22, 0]);

test('the size stands in the head of the file', () => {
  expect(sizeIn(png)).toEqual({ kind: 'png', width: 30000, height: 258 });
  expect(sizeIn(jpeg)).toEqual({ kind: 'jpeg', width: 640, height: 480 });
});

test('cut short at any byte it is no picture, and nothing is thrown', () => {
  for (const whole of [png.subarray(0, 24), jpeg.subarray(0, 18)])
    for (let length = 0; length < whole.length; length += 1) expect(sizeIn(whole.subarray(0, length))).toBeNull();
});

test('anything else is none', () => {
  expect(sizeIn(bytes('<svg xmlns="http://www.w3.org/2000/svg"/>'))).toBeNull();
  expect(sizeIn(bytes([0xff, 0xd8, 0xff, 0xda, 0, 2, 0, 0, 0, 0, 0, 0, 0, 0, 0]))).toBeNull();
  expect(sizeIn(bytes([0xff, 0xd8], Array.from({ length: 64 }, () => 0xff)))).toBeNull();
  expect(sizeIn(bytes([0xff, 0xd8], Array.from({ length: 64 }, () => 0)))).toBeNull();
});
