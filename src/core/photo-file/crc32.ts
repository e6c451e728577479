const TABLE = Int32Array.from({ length: 256 }, (_, byte) => {
  let value = byte;
  for (let bit = 0; bit < 8; bit += 1) value = value & 1 ? (value >>> 1) ^ 0xedb88320 : value >>> 1;
  return value;
});

/** The cyclic redundancy check of PNG and zip. @see PNG 3rd edition (W3C), annex D */
export function crc32(bytes: Uint8Array): number {
  let crc = -1;
  for (let i = 0; i < bytes.length; i += 1) crc = TABLE[(crc ^ bytes[i]!) & 255]! ^ (crc >>> 8);
  return ~crc >>> 0;
}
