/** Appends bytes and variable-length whole numbers (LEB128: 7 bits a byte, lowest first). */
export class ByteWriter {
  #bytes = new Uint8Array(256);
  #length = 0;

  byte(value: number): void {
    if (this.#length === this.#bytes.length) this.#grow(1);
    this.#bytes[this.#length] = value;
    this.#length += 1;
  }

  /** @param value 0..2^32 - 1 */
  number(value: number): void {
    let rest = value;
    while (rest > 127) {
      this.byte((rest & 127) | 128);
      rest >>>= 7;
    }
    this.byte(rest);
  }

  bytes(values: Uint8Array): void {
    if (this.#length + values.length > this.#bytes.length) this.#grow(values.length);
    this.#bytes.set(values, this.#length);
    this.#length += values.length;
  }

  /** A copy of what was written. */
  finish(): Uint8Array<ArrayBuffer> {
    return this.#bytes.slice(0, this.#length);
  }

  #grow(room: number): void {
    const larger = new Uint8Array(Math.max(this.#length + room, 2 * this.#bytes.length));
    larger.set(this.#bytes);
    this.#bytes = larger;
  }
}

/** Reads what ByteWriter wrote. Every read throws a RangeError beyond the end or on a number that is no LEB128. */
export class ByteReader {
  readonly #bytes: Uint8Array;
  #at: number;

  constructor(bytes: Uint8Array, at = 0) {
    this.#bytes = bytes;
    this.#at = at;
  }

  get atEnd(): boolean {
    return this.#at >= this.#bytes.length;
  }

  get position(): number {
    return this.#at;
  }

  byte(): number {
    if (this.atEnd) throw new RangeError(`the data end at byte ${this.#at}, more are needed`);
    const value = this.#bytes[this.#at]!;
    this.#at += 1;
    return value;
  }

  number(): number {
    let value = 0;
    for (let shift = 0; shift <= 28; shift += 7) {
      const next = this.byte();
      value += (next & 127) * 2 ** shift;
      if (next < 128) {
        if (value > 0xffffffff) break;
        return value;
      }
    }
    throw new RangeError(`byte ${this.#at}: a number is too long`);
  }
}
