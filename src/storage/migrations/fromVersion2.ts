/*
 * Version 2 kept which of several frames in a plot a photo shows as a text that nothing ever filled in. Version 3 keeps
 * the number of the place, and one record a trial.
 */

/** A photo of version 2; a record that is not what version 2 wrote is handed on unchanged, to be reported. */
export function photoFromVersion2(photo: unknown): unknown {
  if (typeof photo !== 'object' || photo === null || !('quadrat' in photo)) return photo;
  const { quadrat, ...kept } = photo;
  return {
    ...kept,
    place: typeof quadrat === 'string' && /^[1-9]\d?$/.test(quadrat) ? Number(quadrat) : null,
  };
}
