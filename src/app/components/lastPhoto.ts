let lastOpen: string | null = null;

/** Notes which photo a screen shows, so that other screens and the way back lead to it. */
export function noteOpenPhoto(id: string): void {
  lastOpen = id;
}

/** The photo that was open last, or else the first; null where there is none. */
export function photoToOpen(photos: readonly { readonly id: string }[]): string | null {
  return photos.some(({ id }) => id === lastOpen) ? lastOpen : (photos[0]?.id ?? null);
}
