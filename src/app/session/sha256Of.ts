/** SHA-256 of bytes, 64 hexadecimal digits. Browsers and Node have it alike; pages only where they are opened safely. */
export async function sha256Of(bytes: Uint8Array<ArrayBuffer>): Promise<string> {
  const hash = await crypto.subtle.digest('SHA-256', bytes);
  return Array.from(new Uint8Array(hash), (byte) => byte.toString(16).padStart(2, '0')).join('');
}
