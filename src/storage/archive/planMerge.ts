import { canonicalJson } from '../../core/mask/canonicalJson.ts';
import { auditEntries } from '../../core/trial/audit.ts';
import { groupBy } from '../../core/trial/groupBy.ts';
import type { RecordOf } from '../tables.ts';
import { type ArchiveContents, keyText, SMALL_TABLES, type SmallTable } from './archivedTables.ts';
import { MergeDraft } from './mergeDraft.ts';
import { codeOf, isSameTrial, namedAlike, nameOf } from './mergeIdentity.ts';
import {
  type Direction,
  directionOfMask,
  directionOfPlace,
  directionOfStrokes,
  type PhotoRecords,
  stateOf,
} from './mergePhoto.ts';
import type { MergePlanning, MergeSide, MergeSummary, PhotoAspect } from './mergeTypes.ts';

/**
 * What an archive would bring to what is here, record by record, without changing anything.
 *
 * Records that are never changed are added where they are missing. Where both sides have something in its own way, the
 * histories they keep (audit, gestures, figures made before) tell which went on from the other; where they do not, the
 * difference is a conflict for a person to decide. The same merge again brings nothing.
 */
export function planMerge(present: MergeSide, archive: MergeSide): MergePlanning {
  const here = present.contents;
  const [trialHere, trialThere] = [here.trials[0], archive.contents.trials[0]];
  if (trialHere && trialThere && !isSameTrial(trialHere, trialThere)) {
    const called = (trial: RecordOf<'trials'>) => nameOf(trial) || codeOf(trial);
    return { ok: false, code: 'other-trial', here: called(trialHere), there: called(trialThere) };
  }
  const { there, archiveIdOf } = namedAlike(here, archive);
  const draft = new MergeDraft(archiveIdOf);
  mergePhotos(present, there, draft);
  draft.trial(mergeTrial(here, there.contents, draft));
  mergeScores(here, there.contents, draft);
  mergeWeather(here, there.contents, draft);
  for (const table of SMALL_TABLES) {
    if (!MERGED_BY_RULE.has(table)) addMissing(table, here[table], there.contents[table], draft);
  }
  return { ok: true, plan: draft.plan() };
}

/** Tables with a rule of their own; records of all others are only ever added. */
const MERGED_BY_RULE: ReadonlySet<SmallTable> = new Set<SmallTable>([
  'trials',
  'photos',
  'photoSettings',
  'photoChecks',
  'corrections',
  'correctionPatches',
  'strokes',
  'figures',
  'reviews',
  'pointSets',
  'scores',
  'weather',
]);

function addMissing(
  table: SmallTable,
  here: readonly unknown[],
  there: readonly unknown[],
  draft: MergeDraft,
): void {
  const known = new Set(here.map((record) => keyText(table, record)));
  for (const record of there) if (!known.has(keyText(table, record))) draft.add(table, record);
}

function mergePhotos(present: MergeSide, archive: MergeSide, draft: MergeDraft): void {
  const [ofHere, ofThere] = [photoRecords(present), photoRecords(archive)];
  const [here, there] = [present.contents, archive.contents];
  for (const [id, own] of ofThere) {
    const before = ofHere.get(id);
    if (before) mergePhoto(before, own, draft);
    else draft.newPhoto(own.photo);
  }
  // what hangs on a photo that is new comes along whole
  const isNew = (photoId: string) => ofThere.has(photoId) && !ofHere.has(photoId);
  for (const table of [
    'photoSettings',
    'photoChecks',
    'corrections',
    'correctionPatches',
    'strokes',
    'figures',
  ] as const) {
    for (const record of there[table]) if (isNew(record.photoId)) draft.put(table, record);
  }
  mergeReviews(here, there, isNew, draft);
  mergePointSets(here, there, draft);
}

function photoRecords({ contents, layerSha256 }: MergeSide): Map<string, PhotoRecords> {
  const settings = new Map(contents.photoSettings.map((record) => [record.photoId, record]));
  const corrections = new Map(contents.corrections.map((record) => [record.photoId, record]));
  const ofPhoto = <T extends { readonly photoId: string }>(records: readonly T[]) =>
    groupBy(records, ({ photoId }) => photoId);
  const patches = ofPhoto(contents.correctionPatches);
  const strokes = ofPhoto(contents.strokes);
  const figures = ofPhoto(contents.figures);
  const audit = groupBy(contents.auditEntries, ({ subjectId }) => subjectId);
  return new Map(
    contents.photos.map((photo) => [
      photo.id,
      {
        photo,
        settings: settings.get(photo.id),
        corrections: corrections.get(photo.id),
        layerSha256: layerSha256.get(photo.id),
        patches: [...(patches.get(photo.id) ?? [])].sort((a, b) => a.sequence - b.sequence),
        strokes: strokes.get(photo.id) ?? [],
        figures: figures.get(photo.id) ?? [],
        audit: audit.get(photo.id) ?? [],
      },
    ]),
  );
}

function mergePhoto(here: PhotoRecords, there: PhotoRecords, draft: MergeDraft): void {
  const directions: Record<PhotoAspect, Direction> = {
    place: directionOfPlace(here, there),
    mask: directionOfMask(here, there),
    strokes: directionOfStrokes(here, there),
  };
  const { id } = here.photo;
  const conflictId = `photo ${id}`;
  const aspects = (Object.keys(directions) as PhotoAspect[]).filter((one) => directions[one] === 'conflict');
  if (aspects.length > 0) {
    const states = { here: stateOf(here), there: stateOf(there) };
    draft.conflict({ kind: 'photo', id: conflictId, photo: here.photo, aspects, ...states });
  }
  draft.countPhoto(Object.values(directions));
  const take = (aspect: PhotoAspect, write: (isOverruled: boolean) => void) => {
    if (directions[aspect] === 'continued') draft.later(null, () => write(false));
    else if (directions[aspect] === 'conflict') draft.later(conflictId, () => write(true));
  };
  take('place', (isOverruled) => {
    const { plot, place, ratingDate, namedBy, replaced } = there.photo;
    draft.put('photos', { ...here.photo, plot, place, ratingDate, namedBy, replaced });
    if (isOverruled) draft.overrule('photos', id, placeOf(here), placeOf(there));
  });
  take('strokes', (isOverruled) => {
    const kept = new Set(there.strokes.map((stroke) => stroke.id));
    for (const stroke of here.strokes) if (!kept.has(stroke.id)) draft.delete('strokes', stroke);
    for (const stroke of there.strokes) draft.put('strokes', stroke);
    if (isOverruled) draft.overrule('strokes', id, here.strokes, there.strokes);
  });
  take('mask', (isOverruled) => {
    if (there.settings) draft.put('photoSettings', there.settings);
    if (there.corrections) draft.put('corrections', there.corrections);
    else if (here.corrections) draft.delete('corrections', here.corrections);
    for (const patch of here.patches.slice(there.patches.length)) draft.delete('correctionPatches', patch);
    for (const patch of there.patches) draft.put('correctionPatches', patch);
    draft.takeMask(id);
    if (isOverruled) draft.overrule('photoSettings', id, maskOf(here), maskOf(there));
  });
  const mask = directions.mask;
  mergeFigures(here, there, draft, mask === 'conflict' ? conflictId : null, mask === 'continued');
}

const placeOf = ({ photo: { plot, place, ratingDate } }: PhotoRecords) => ({ plot, place, ratingDate });
const maskOf = ({ settings, layerSha256 }: PhotoRecords) => ({
  settings: settings ?? null,
  correctionsSha256: layerSha256 ?? null,
});

/**
 * Figures are a history: those of the archive are added, as earlier ones unless the archive's mask is taken. Two figures
 * that say the same, made on two devices, are one. A mask that is decided against leaves its figures in the archive.
 */
function mergeFigures(
  here: PhotoRecords,
  there: PhotoRecords,
  draft: MergeDraft,
  conflictId: string | null,
  isContinued: boolean,
): void {
  const known = new Map(
    here.figures.flatMap((figure) => [[figure.id, figure] as const, [figureText(figure), figure] as const]),
  );
  const present = here.figures.filter(({ current }) => current === 1);
  const methodsHere = new Set(present.map(({ method }) => method));
  const addAs = (takesMask: boolean) => {
    for (const figure of there.figures) {
      const own = known.get(figure.id) ?? known.get(figureText(figure));
      const isOfMask = figure.method === 'automatic' || figure.method === 'corrected';
      if (conflictId && !takesMask && isOfMask && !own) continue;
      const counts = figure.current === 1 && ((takesMask && isOfMask) || !methodsHere.has(figure.method));
      if (!own) draft.put('figures', { ...figure, current: counts ? 1 : 0 });
      else if (counts && own.current === 0) draft.put('figures', { ...own, current: 1 });
      if (!counts) continue;
      for (const before of present) {
        if (before.method === figure.method && before !== own)
          draft.put('figures', { ...before, current: 0 });
      }
    }
    if (!takesMask || there.corrections) return;
    for (const before of present) {
      // the corrections it was made with are gone
      if (before.method === 'corrected') draft.put('figures', { ...before, current: 0 });
    }
  };
  if (conflictId)
    draft.either(
      conflictId,
      () => addAs(false),
      () => addAs(true),
    );
  else draft.later(null, () => addAs(isContinued));
}

function figureText({ id: _id, current: _current, measuredAt: _at, ...figure }: RecordOf<'figures'>): string {
  const { settings, ...said } = figure;
  const { frame, ignored, neutral, modelId = null, classes } = settings;
  return canonicalJson({
    ...said,
    settings: [frame, ignored, neutral, modelId, classes.map(({ id }) => id)],
  });
}

/** The later look at a photo counts. */
function mergeReviews(
  here: ArchiveContents,
  there: ArchiveContents,
  isNew: (photoId: string) => boolean,
  draft: MergeDraft,
): void {
  const before = new Map(here.reviews.map((review) => [review.photoId, review]));
  for (const review of there.reviews) {
    const own = before.get(review.photoId);
    if (isNew(review.photoId) || !own || own.at < review.at) draft.put('reviews', review);
  }
}

/** Points are only ever added to a set. */
function mergePointSets(here: ArchiveContents, there: ArchiveContents, draft: MergeDraft): void {
  const before = new Map(here.pointSets.map((set) => [set.id, set]));
  for (const set of there.pointSets) {
    const own = before.get(set.id);
    if (!own) draft.add('pointSets', set);
    else if (set.set.points.length > own.set.points.length) draft.put('pointSets', set);
  }
}

function mergeTrial(here: ArchiveContents, there: ArchiveContents, draft: MergeDraft): MergeSummary['trial'] {
  const [own, other] = [here.trials[0], there.trials[0]];
  if (!other) return own ? 'same' : 'none';
  if (!own) {
    draft.put('trials', other);
    return 'new';
  }
  const content = ({ plan, photoRules }: RecordOf<'trials'>) => ({ ...plan, photoRules });
  if (canonicalJson(content(own)) === canonicalJson(content(other))) return 'same';
  const idsOf = ({ auditEntries: entries }: ArchiveContents) =>
    new Set(
      entries
        .filter(({ subject, subjectId }) => subject === 'trials' && subjectId === own.id)
        .map(({ id }) => id),
    );
  const [a, b] = [idsOf(here), idsOf(there)];
  const holds = (whole: ReadonlySet<string>, part: ReadonlySet<string>) =>
    whole.size > part.size && [...part].every((id) => whole.has(id));
  if (holds(a, b)) return 'behind';
  const take = () => draft.put('trials', { ...other, createdAt: own.createdAt });
  if (holds(b, a)) {
    draft.later(null, take);
    return 'continued';
  }
  const id = 'plan';
  const signature = { who: '-', when: '', why: '-' };
  const plain = (record: RecordOf<'trials'>) => JSON.parse(JSON.stringify(content(record)));
  draft.conflict({
    kind: 'plan',
    id,
    fields: auditEntries(plain(own), plain(other), signature).map(({ field }) => field),
    here: { changedAt: own.changedAt },
    there: { changedAt: other.changedAt },
  });
  draft.later(id, () => {
    take();
    draft.overrule('trials', own.id, content(own), content(other));
  });
  return 'conflict';
}

function mergeScores(here: ArchiveContents, there: ArchiveContents, draft: MergeDraft): void {
  const before = new Map(here.scores.map((score) => [keyText('scores', score), score]));
  const noted = (contents: ArchiveContents, score: RecordOf<'scores'>, value: number | null) => {
    const field = `scores[${[score.variable, score.plot, score.ratingDate, score.rater].join(' ')}]`;
    return contents.auditEntries.some(
      (entry) => entry.field === field && (entry.before as { value?: unknown } | null)?.value === value,
    );
  };
  for (const score of there.scores) {
    const own = before.get(keyText('scores', score));
    if (!own) {
      // a score that was taken back here stays away
      const wasHere = noted(here, score, score.value);
      draft.countScore(wasHere ? 'behind' : 'new');
      if (!wasHere) draft.put('scores', score);
    } else if (own.value === score.value) draft.countScore('same');
    else {
      const [wasHere, wasThere] = [noted(here, score, score.value), noted(there, score, own.value)];
      const direction = wasHere === wasThere ? 'conflict' : wasHere ? 'behind' : 'continued';
      draft.countScore(direction);
      if (direction === 'continued') draft.put('scores', score);
      if (direction !== 'conflict') continue;
      const id = `score ${keyText('scores', score)}`;
      draft.conflict({ kind: 'score', id, here: own, there: score });
      draft.later(id, () => {
        draft.put('scores', score);
        draft.overrule('trials', own.trialId, own, score);
      });
    }
  }
}

function mergeWeather(here: ArchiveContents, there: ArchiveContents, draft: MergeDraft): void {
  const before = new Map(here.weather.map((record) => [record.trialId, record]));
  for (const record of there.weather) {
    const own = before.get(record.trialId);
    if (!own) {
      draft.add('weather', record);
      continue;
    }
    const days = new Map(own.days.map((day) => [day.day, day]));
    const differing = record.days.filter(
      ({ day }) =>
        days.has(day) &&
        canonicalJson(days.get(day)) !== canonicalJson(record.days.find((one) => one.day === day)),
    );
    const fresh = record.days.filter(({ day }) => !days.has(day));
    const merged = (taken: readonly (typeof record.days)[number][]) => {
      const all = new Map([...own.days, ...taken].map((day) => [day.day, day]));
      return {
        ...own,
        days: [...all.values()].sort((a, b) => (a.day < b.day ? -1 : 1)),
        changedAt: later(own, record),
      };
    };
    if (differing.length === 0) {
      if (fresh.length > 0) draft.put('weather', merged(fresh));
      continue;
    }
    const id = `weather ${record.trialId}`;
    draft.conflict({ kind: 'weather', id, days: differing.map(({ day }) => day) });
    draft.either(
      id,
      () => fresh.length > 0 && draft.put('weather', merged(fresh)),
      () => {
        draft.put('weather', merged(record.days));
        draft.overrule(
          'trials',
          record.trialId,
          differing.map(({ day }) => days.get(day)),
          differing,
        );
      },
    );
  }
}

const later = (a: { readonly changedAt: string }, b: { readonly changedAt: string }): string =>
  [a.changedAt, b.changedAt].sort()[1]!;
