/** A source of numbers in [0, 1), such as `Math.random` or `repeatableRandom(seed)`. */
export type Random = () => number;

/** Largest seed: seeds are whole numbers that can be typed, printed and typed again. */
export const LARGEST_SEED = 4_294_967_295;

const MASK64 = 0xffff_ffff_ffff_ffffn;

/**
 * The generator splitmix64, used to spread a seed over the state of the generator below, as its authors advise.
 *
 * @see Steele, Lea and Flood 2014, Fast splittable pseudorandom number generators, OOPSLA
 */
export function splitmix64(seed: bigint): () => bigint {
  let state = seed & MASK64;
  return () => {
    state = (state + 0x9e37_79b9_7f4a_7c15n) & MASK64;
    let mixed = state;
    mixed = ((mixed ^ (mixed >> 30n)) * 0xbf58_476d_1ce4_e5b9n) & MASK64;
    mixed = ((mixed ^ (mixed >> 27n)) * 0x94d0_49bb_1331_11ebn) & MASK64;
    return mixed ^ (mixed >> 31n);
  };
}

const rotateLeft = (word: number, by: number) => (word << by) | (word >>> (32 - by));

/**
 * The generator xoshiro128** 1.1: whole numbers 0..2^32-1 from a state of four 32-bit words, not all 0.
 *
 * @see Blackman and Vigna 2021, Scrambled linear pseudorandom number generators, ACM Trans. Math. Softw. 47:36
 */
export function xoshiro128StarStar(state: readonly [number, number, number, number]): () => number {
  let [a, b, c, d] = state;
  return () => {
    const result = Math.imul(rotateLeft(Math.imul(b, 5), 7), 9) >>> 0;
    const shifted = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= shifted;
    d = rotateLeft(d, 11);
    return result;
  };
}

/**
 * Random numbers that come again from the same seed, in any browser and in Node: xoshiro128** started by splitmix64,
 * two outputs to a number of 53 bits. Good for drawing layouts and places; not for secrets.
 *
 * @param seed whole number 0..4294967295
 */
export function repeatableRandom(seed: number): Random {
  if (!Number.isInteger(seed) || seed < 0 || seed > LARGEST_SEED) {
    throw new RangeError(`a seed is a whole number from 0 to ${LARGEST_SEED}, got ${seed}`);
  }
  const spread = splitmix64(BigInt(seed));
  const [first, second] = [spread(), spread()];
  const low = (word: bigint) => Number(word & 0xffff_ffffn);
  const next = xoshiro128StarStar([low(first), low(first >> 32n), low(second), low(second >> 32n)]);
  return () => ((next() >>> 5) * 67_108_864 + (next() >>> 6)) / 9_007_199_254_740_992;
}

/** A whole number 0..count-1, each equally likely (up to count * 2^-53). */
export function randomBelow(count: number, random: Random): number {
  return Math.floor(random() * count);
}

/** The items in random order, every order equally likely (Fisher and Yates; Durstenfeld 1964). */
export function shuffled<T>(items: readonly T[], random: Random): T[] {
  const order = [...items];
  for (let last = order.length - 1; last > 0; last--) {
    const chosen = randomBelow(last + 1, random);
    [order[last], order[chosen]] = [order[chosen]!, order[last]!];
  }
  return order;
}

/**
 * A seed of its own for each named purpose (a plot on a date, say), from one seed of the trial: FNV-1a over the names.
 *
 * @see Fowler, Noll and Vo: FNV-1a, 32 bit
 */
export function seedFor(seed: number, ...names: readonly string[]): number {
  let hash = 0x811c_9dc5;
  for (const character of [String(seed), ...names].join('\n')) {
    hash = Math.imul(hash ^ character.codePointAt(0)!, 0x0100_0193);
  }
  return hash >>> 0;
}
