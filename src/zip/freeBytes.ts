/**
 * Gives the memory of bytes back at once; they are empty then. A collector comes later, and archives are large.
 *
 * Without effect where the engine cannot yet do it.
 */
export function freeBytes(buffer: ArrayBufferLike): void {
  (buffer as ArrayBuffer & { transfer?(length: number): ArrayBuffer }).transfer?.(0);
}

/** The same for a piece of a stream that nobody reads any more, unless it is a view into something larger. */
export function freeChunk(chunk: Uint8Array): void {
  if (chunk.byteLength === chunk.buffer.byteLength) freeBytes(chunk.buffer);
}
