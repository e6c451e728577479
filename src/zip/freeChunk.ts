/**
 * Gives the memory of a piece of a stream back at once, for nobody reads it any more; a view into something larger is left
 * alone. Without effect where the engine cannot yet do it: then the collector does, later.
 */
export function freeChunk({ buffer, byteLength }: Uint8Array): void {
  if (byteLength === buffer.byteLength) {
    (buffer as ArrayBuffer & { transfer?(length: number): ArrayBuffer }).transfer?.(0);
  }
}
