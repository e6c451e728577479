import { createHash } from 'node:crypto';

/** SHA-256, 64 hexadecimal digits; text as UTF-8. */
export const sha256 = (content: string | Uint8Array): string =>
  createHash('sha256').update(content).digest('hex');
