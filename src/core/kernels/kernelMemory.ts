import type { Kernels } from './kernels.ts';

const PAGE = 65536;
/** Vectors are read fastest from multiples of this. */
const ALIGNMENT = 16;

/**
 * Addresses for pieces of so many bytes, one after the other, in a kernel's memory, which grows as needed.
 *
 * What lay there before is lost, and so are views of it where the memory grew: ask for addresses first, then make views.
 */
export function layOut<const Sizes extends readonly number[]>(
  { memory, heapStart }: Kernels,
  sizes: Sizes,
): { readonly [Index in keyof Sizes]: number } {
  let end = heapStart();
  const addresses = sizes.map((size) => {
    const address = end;
    end = Math.ceil((address + size) / ALIGNMENT) * ALIGNMENT;
    return address;
  });
  const missing = end - memory.buffer.byteLength;
  if (missing > 0) memory.grow(Math.ceil(missing / PAGE));
  return addresses as { readonly [Index in keyof Sizes]: number };
}
