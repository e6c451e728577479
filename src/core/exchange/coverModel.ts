import { z } from 'zod';
import { COVER_MODEL_VERSION, type CoverModel, statisticsOf } from '../classifier/coverModel.ts';
import { choleskyFactor } from '../classifier/symmetricMatrix.ts';
import { FEATURE_SET, FEATURES } from '../features/featurePlanes.ts';

/** Why a file is no model that can be used. `field` is a path such as `photos[0].look.contrast`. */
export type CoverModelProblem =
  | { readonly code: 'not-json'; readonly detail: string }
  | { readonly code: 'other-type'; readonly met: string }
  | { readonly code: 'bad-version'; readonly met: string }
  | { readonly code: 'newer-version'; readonly met: number; readonly newest: number }
  | { readonly code: 'other-feature-set'; readonly met: string; readonly known: string }
  | { readonly code: 'bad-field'; readonly field: string; readonly met: string }
  | { readonly code: 'fewer-than-two-classes-taught'; readonly met: number };

export type CoverModelReading =
  | { readonly ok: true; readonly model: CoverModel }
  | { readonly ok: false; readonly problem: CoverModelProblem };

const SIZE = FEATURES.length;
const TRIANGLE = (SIZE * (SIZE + 1)) / 2;

/** Features lie within CIELAB; anything beyond is damage. */
const feature = z.number().min(-1000).max(1000);

const taughtClass = z
  .strictObject({
    cells: z.number().int().min(0).max(1e6),
    independentCells: z.number().int().min(0).max(1e6),
    mean: z.array(feature),
    scatter: z.array(z.number().min(-1e12).max(1e12)),
  })
  .refine(({ cells, mean }) => mean.length === (cells === 0 ? 0 : SIZE), { path: ['mean'] })
  .refine(({ cells, scatter }) => scatter.length === (cells === 0 ? 0 : TRIANGLE), { path: ['scatter'] })
  .refine(isScatter, { path: ['scatter'] })
  .refine(({ cells, independentCells }) => independentCells <= cells && independentCells > 0 === cells > 0, {
    path: ['independentCells'],
  });

/** Whether the entries can be sums of products: no combination of features has a negative square. */
function isScatter(entry: {
  cells: number;
  independentCells: number;
  mean: number[];
  scatter: number[];
}): boolean {
  if (entry.scatter.length !== TRIANGLE || entry.mean.length !== SIZE) return true; // told apart above
  const { scatter } = statisticsOf(entry)!;
  const slack = 1e-9 * scatter.reduce((largest, value) => Math.max(largest, Math.abs(value)), 1);
  try {
    choleskyFactor(
      scatter.map((value, i) => value + (i % (SIZE + 1) === 0 ? slack : 0)),
      SIZE,
    );
    return true;
  } catch {
    return false;
  }
}

const taughtPhoto = z.strictObject({
  photoSha256: z.string().min(1).max(200).nullable(),
  look: z.strictObject({
    contrast: z.number().min(-10).max(10),
    lightGain: z.number().positive().max(1000),
    spread: z.array(z.number().positive().max(1000)).length(SIZE),
  }),
  parts: z.array(z.array(taughtClass)).min(1).max(100),
});

const schema = z
  .strictObject({
    type: z.literal('cover-model'),
    version: z.literal(COVER_MODEL_VERSION),
    featureSet: z.literal(FEATURE_SET),
    classes: z
      .array(z.string().regex(/^[\p{L}\p{N}][\p{L}\p{N} _.-]{0,63}$/u))
      .min(1)
      .max(250)
      .refine((ids) => new Set(ids).size === ids.length),
    seed: z.number().int().min(0).max(4_294_967_295),
    photos: z.array(taughtPhoto).min(1).max(10_000),
  })
  .superRefine(({ classes, photos }, context) => {
    photos.forEach(({ parts }, photo) => {
      parts.forEach((part, at) => {
        if (part.length !== classes.length) {
          context.addIssue({ code: 'custom', path: ['photos', photo, 'parts', at] });
        }
      });
    });
  });

/**
 * Reads a model. One with a newer version or another set of features is refused: its figures would not be what its
 * author meant.
 *
 * @param text the file, UTF-8 decoded
 */
export function readCoverModel(text: string): CoverModelReading {
  const refused = (problem: CoverModelProblem): CoverModelReading => ({ ok: false, problem });
  let file: unknown;
  try {
    file = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (error) {
    return refused({ code: 'not-json', detail: (error as Error).message });
  }
  const entries = typeof file === 'object' && file !== null ? (file as Record<string, unknown>) : {};
  if (entries.type !== 'cover-model') {
    return refused({ code: 'other-type', met: shown(entries.type) });
  }
  const { version, featureSet } = entries;
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 1) {
    return refused({ code: 'bad-version', met: shown(version) });
  }
  if (version > COVER_MODEL_VERSION) {
    return refused({ code: 'newer-version', met: version, newest: COVER_MODEL_VERSION });
  }
  if (featureSet !== FEATURE_SET) {
    return refused({ code: 'other-feature-set', met: shown(featureSet), known: FEATURE_SET });
  }
  const parsed = schema.safeParse(file);
  if (!parsed.success) {
    const { path } = parsed.error.issues[0]!;
    const met = path.reduce<unknown>(
      (value, key) => (value as Record<PropertyKey, unknown> | null | undefined)?.[key],
      file,
    );
    const field = path.map((key) => (typeof key === 'number' ? `[${key}]` : `.${String(key)}`)).join('');
    return refused({ code: 'bad-field', field: field.replace(/^\./, ''), met: shown(met) });
  }
  const { data } = parsed;
  const taught = data.classes.filter((_, c) =>
    data.photos.some(({ parts }) => parts.some((part) => part[c]!.cells > 0)),
  );
  if (taught.length < 2) return refused({ code: 'fewer-than-two-classes-taught', met: taught.length });
  return { ok: true, model: data };
}

/** The file of a model. Equal models give equal text: keys in one order, numbers as they are. */
export function writeCoverModel(model: CoverModel): string {
  const { type, version, featureSet, classes, seed, photos } = model;
  const lines = photos.map(({ photoSha256, look, parts }) =>
    JSON.stringify({
      photoSha256,
      look: { contrast: look.contrast, lightGain: look.lightGain, spread: look.spread },
      parts: parts.map((part) =>
        part.map(({ cells, independentCells, mean, scatter }) => ({
          cells,
          independentCells,
          mean,
          scatter,
        })),
      ),
    }),
  );
  const head = JSON.stringify({ type, version, featureSet, classes, seed }).slice(1, -1);
  return `{${head},\n"photos": [\n${lines.join(',\n')}\n]}\n`;
}

/**
 * The id of a model: the SHA-256 of its file, hexadecimal.
 *
 * @param sha256 hash of bytes, hexadecimal: the page and the command line each have their own
 */
export async function coverModelId(
  model: CoverModel,
  sha256: (text: string) => Promise<string> | string,
): Promise<string> {
  return sha256(writeCoverModel(model));
}

const LONGEST_SHOWN = 60;

function shown(value: unknown): string {
  const text = value === undefined ? 'nothing' : JSON.stringify(value);
  return text.length > LONGEST_SHOWN ? `${text.slice(0, LONGEST_SHOWN)}…` : text;
}
