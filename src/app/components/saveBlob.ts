/** Offers a file to the person by the browser's own download. */
export function saveBlob(blob: Blob, name: string): void {
  const url = URL.createObjectURL(blob);
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  // the browser has taken the address over by the next task
  setTimeout(() => URL.revokeObjectURL(url), 0);
}
