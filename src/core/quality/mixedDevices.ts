/** A photo of a rating date with what is known of the camera. */
export interface PhotoDevice {
  readonly photo: string;
  /** Maker and model; null where the photo does not say. */
  readonly device: string | null;
}

/** Photos of one date come from several cameras, whose colours differ: a model taught on one may misjudge the other. */
export interface MixedDevicesFinding {
  readonly code: 'mixed-devices';
  /** Most photos first. */
  readonly devices: readonly { readonly device: string; readonly photos: number }[];
}

/** The finding, or null where all photos that name a camera name the same. */
export function mixedDevices(photos: readonly PhotoDevice[]): MixedDevicesFinding | null {
  const counts = new Map<string, number>();
  for (const { device } of photos) if (device !== null) counts.set(device, (counts.get(device) ?? 0) + 1);
  if (counts.size < 2) return null;
  const devices = [...counts].map(([device, count]) => ({ device, photos: count }));
  devices.sort((a, b) => b.photos - a.photos || (a.device < b.device ? -1 : 1));
  return { code: 'mixed-devices', devices };
}
