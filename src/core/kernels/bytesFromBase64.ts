const DIGITS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';

/** Bytes of a base64 text; what stands after the last whole byte is left out. @see RFC 4648, section 4 */
export function bytesFromBase64(text: string): Uint8Array<ArrayBuffer> {
  const digits = text.replace(/=+$/, '');
  const out = new Uint8Array((digits.length * 6) >> 3);
  let bits = 0;
  let at = 0;
  for (let i = 0; i < digits.length; i += 1) {
    bits = (bits << 6) | DIGITS.indexOf(digits[i]!);
    // after four digits three bytes are there; a digit has 6 bits, the rest of the last byte waits
    const waiting = ((i + 1) * 6) % 8;
    if (waiting < 6) {
      out[at] = bits >> waiting;
      at += 1;
    }
  }
  return out;
}
