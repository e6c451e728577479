const ALPHABET = '0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ';

/**
 * Check character of ISO 7064 MOD 37,36 over the letters and digits of a text; other characters do not count.
 * It finds every single wrong character and nearly all neighbours that changed places.
 */
export function checkCharacter(text: string): string {
  let carry = 36;
  for (const character of text) {
    const value = ALPHABET.indexOf(character);
    if (value < 0) continue;
    carry = (((carry + value) % 36 || 36) * 2) % 37;
  }
  return ALPHABET[(37 - carry) % 36]!;
}
