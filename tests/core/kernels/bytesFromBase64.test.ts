import { expect, it } from 'vitest';
import { bytesFromBase64 } from '../../../src/core/kernels/bytesFromBase64.ts';

// RFC 4648, section 10
it.each([
  ['', ''],
  ['Zg==', 'f'],
  ['Zm8=', 'fo'],
  ['Zm9v', 'foo'],
  ['Zm9vYg==', 'foob'],
  ['Zm9vYmE=', 'fooba'],
  ['Zm9vYmFy', 'foobar'],
])('%s is %s', (text, expected) => {
  expect(String.fromCharCode(...bytesFromBase64(text))).toBe(expected);
});

it('reads every byte value', () => {
  const bytes = Uint8Array.from({ length: 256 }, (_, i) => 255 - i);
  expect(bytesFromBase64(Buffer.from(bytes).toString('base64'))).toEqual(bytes);
});
