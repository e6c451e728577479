import * as z from 'zod/mini';
import {
  bytes,
  calendarDay,
  count,
  coverFlag,
  doubtReason,
  figureProblem,
  fraction,
  id,
  instant,
  measureSettings,
  person,
  photoChoices,
  positive,
  positiveInt,
  sha256,
  sizePx,
} from './common.ts';

/** Facts of one photo. Everything large, and everything that changes while it is worked on, has a table of its own. */
export const photoRecord = z.object({
  id,
  trialId: z.nullable(id),
  /** File name as it came. */
  name: z.string(),
  /** SHA-256 of the file's bytes, hexadecimal: the same photo is stored once. */
  sha256,
  byteCount: positiveInt,
  plot: z.nullable(z.string()),
  /** Place of the frame in the plot, 1..; null where it is not known or there is but one. */
  place: z.nullable(positiveInt),
  ratingDate: z.nullable(calendarDay),
  namedBy: z.nullable(z.enum(['file-name', 'exif', 'walking-order', 'label', 'person'])),
  /** Local time as the camera wrote it, without a zone. */
  takenAt: z.nullable(z.string()),
  /** What the file says of the camera; left out by photos taken in before this was kept. */
  camera: z.optional(
    z.looseObject({
      /** Maker and model as written. */
      device: z.nullable(z.string()),
      /** Minutes east of UTC, where the camera wrote its offset. */
      utcOffsetMinutes: z.nullable(z.int()),
      /** A time it wrote that is none of this age; left out where there is a time, or nothing written. */
      unreadableTime: z.optional(z.string()),
    }),
  ),
  /** Plot labels read in it by themselves; left out: not looked for yet. */
  label: z.optional(z.object({ texts: z.array(z.string()), readAt: instant })),
  /** When its bytes last left this device in an archive; left out: they exist only here. */
  exportedAt: z.optional(instant),
  /** Where it belonged before another photo was taken in its place; it then belongs to no plot and date. */
  replaced: z.optional(
    z.object({ plot: id, place: z.nullable(positiveInt), ratingDate: calendarDay, at: instant }),
  ),
  /** Size of the upright photo; null until its head or pixels were read. */
  widthPx: z.nullable(sizePx),
  heightPx: z.nullable(sizePx),
  addedAt: instant,
});

export const photoBytesRecord = z.object({ photoId: id, bytes });

export const thumbnailRecord = z.object({ photoId: id, widthPx: sizePx, heightPx: sizePx, jpeg: bytes });

/** `finder`: found by the program and used, not yet confirmed by a person. */
const whoSettled = z.enum(['finder', 'finder-confirmed', 'person', 'file']);

export const photoSettingsRecord = z.object({
  photoId: id,
  ...photoChoices,
  /** Who set the frame, or that there is none; left out where nobody has, and by settings from before this was kept. */
  frameBy: z.optional(whoSettled),
  /** Who set the grey card, or that there is none; left out where nobody has. */
  neutralBy: z.optional(whoSettled),
  changedAt: instant,
});

/** What was found in a photo by itself: a cache that can be made again. */
export const photoCheckRecord = z.object({
  photoId: id,
  softwareVersion: z.string(),
  checkedAt: instant,
  /** As core/frame/findFrame.ts and findGreyCard.ts answer; null where nobody looked. */
  frame: z.nullable(z.looseObject({})),
  greyCard: z.nullable(z.looseObject({})),
  /** As core/colour/cardBalance.ts answers; null without a card that can be used. */
  balance: z.nullable(z.looseObject({})),
  /** As core/quality/photoQuality.ts answers. */
  quality: z.looseObject({}),
});

/** The mask a model made: a cache that can be made again from photo, settings and model. */
export const automaticMaskRecord = z.object({
  photoId: id,
  figureId: id,
  widthPx: sizePx,
  heightPx: sizePx,
  encoding: z.literal('label-runs deflate-raw'),
  /** Runs as core/raster/labelRuns.ts writes them, deflated (RFC 1951). */
  bytes,
});

/** One figure of one photo with all that is needed to make it again. Never changed but for `current`. */
export const figureRecord = z.object({
  id,
  photoId: id,
  /** 1 for the newest of its method, which is the one shown; 0 for those before it. */
  current: z.union([z.literal(0), z.literal(1)]),
  method: z.enum(['automatic', 'corrected', 'points', 'adjusted', 'visual']),
  cover: z.array(
    z.object({
      classId: id,
      /** Of a figure by points: points called as the class. */
      pixels: count,
      coverFraction: fraction,
      /** 95 % interval, where the method has a validated error. */
      lowFraction: z.optional(fraction),
      highFraction: z.optional(fraction),
    }),
  ),
  flags: z.array(coverFlag),
  /** Of a taught model; left out where there are none. */
  reasons: z.optional(z.array(doubtReason)),
  /** Of an automatic figure; left out by those made before it was kept. */
  turfColour: z.optional(
    z.nullable(
      z.object({
        classId: id,
        pixels: count,
        darkGreenColourIndex: z.nullable(z.number()),
        /** Balanced by a grey card. */
        balancedIndex: z.nullable(z.number()),
      }),
    ),
  ),
  /** Of a figure by points: points judged. */
  measuredPixels: positiveInt,
  millimetresPerPixel: z.nullable(positive),
  modelId: z.string(),
  measuredAt: instant,
  /** Who asked for it; null for a figure the program made by itself. */
  measuredBy: person,
  softwareVersion: z.string(),
  decoder: z.string(),
  settings: measureSettings,
  photoSha256: z.string(),
  /** SHA-256 of the correction layer that is part of the figure; null without corrections. */
  correctionsSha256: z.nullable(z.string()),
  /** Of a corrected figure: share of measured ground whose class was changed by hand. */
  changedFraction: z.optional(fraction),
});

/** The one job of a photo: to measure it. */
export const jobRecord = z.object({
  photoId: id,
  state: z.enum(['waiting', 'running', 'done', 'failed']),
  /** When the batch it belongs to began: progress is counted over one batch. */
  batch: instant,
  requestedAt: instant,
  /** How often a worker or the page died over this photo. */
  deaths: count,
  /** Names the run while `running`. A result that comes with another claim is late and is dropped. */
  claim: z.nullable(z.string()),
  /** Why there is no figure, where it failed. */
  problem: z.nullable(figureProblem),
});

export type PhotoRecord = z.infer<typeof photoRecord>;
export type PhotoSettingsRecord = z.infer<typeof photoSettingsRecord>;
export type ThumbnailRecord = z.infer<typeof thumbnailRecord>;
export type AutomaticMaskRecord = z.infer<typeof automaticMaskRecord>;
export type FigureRecord = z.infer<typeof figureRecord>;
export type JobRecord = z.infer<typeof jobRecord>;
export type PhotoCheckRecord = z.infer<typeof photoCheckRecord>;
