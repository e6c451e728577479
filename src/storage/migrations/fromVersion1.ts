/*
 * Version 1 kept the frame inside the photo's record and knew one figure a photo. Version 2 keeps what a person
 * settled in a table of its own, and every figure that ever was. Pure functions on single records; a record that is
 * not what version 1 wrote is handed on unchanged, for the reader of the present version to report.
 */

type Fields = Readonly<Record<string, unknown>>;

const isRecord = (value: unknown): value is Fields =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** A photo of version 1 as the two records of version 2; no settings where the record cannot be understood. */
export function photoFromVersion1(photo: unknown): { photo: unknown; settings: unknown } {
  if (!isRecord(photo) || typeof photo.name !== 'string' || typeof photo.addedAt !== 'string') {
    return { photo, settings: null };
  }
  const { frame, frameSizeMm, ...facts } = photo;
  const settings = {
    photoId: photo.id,
    frame: Array.isArray(frame) ? { corners: frame, sizeMm: frameSizeMm ?? null } : null,
    ignored: [],
    neutral: null,
    changedAt: photo.addedAt,
  };
  return { photo: { trialId: null, quadrat: null, takenAt: null, ...facts }, settings };
}

/** A figure of version 1 (one a photo, always automatic) as the current figure of version 2. */
export function figureFromVersion1(figure: unknown): unknown {
  if (!isRecord(figure)) return figure;
  return { current: 1, method: 'automatic', measuredBy: null, correctionsSha256: null, ...figure };
}

/** A job of version 1 counted tries and had no batch: all that wait form one. */
export function jobFromVersion1(job: unknown): unknown {
  if (!isRecord(job)) return job;
  const { tries, ...kept } = job;
  return { batch: job.requestedAt, deaths: tries ?? 0, claim: null, problem: null, ...kept };
}
