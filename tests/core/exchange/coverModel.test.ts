import { describe, expect, it } from 'vitest';
import { type CoverModel, fitCoverModel } from '../../../src/core/classifier/coverModel.ts';
import type { TrainingSample } from '../../../src/core/classifier/trainingSamples.ts';
import { coverModelId, readCoverModel, writeCoverModel } from '../../../src/core/exchange/coverModel.ts';
import { seededRandom } from '../../support/seededRandom.ts';

const random = seededRandom(4);
const samples: TrainingSample[] = Array.from({ length: 60 }, (_, i) => ({
  classIndex: i % 2,
  stroke: i,
  column: Math.floor(random() * 200),
  row: Math.floor(random() * 200),
  features: Array.from({ length: 9 }, () => 20 * random() + 5 * (i % 2)),
}));
const fit = fitCoverModel(
  [
    {
      photoSha256: 'ab12',
      look: { contrast: 0.3, lightGain: 1, spread: new Array<number>(9).fill(2) },
      samples,
    },
  ],
  ['ryegrass', 'bare-ground', 'clover'],
);
if (!fit.ok) throw new Error(fit.problem.code);
const { model } = fit;
const text = writeCoverModel(model);

const changed = (change: (file: Record<string, never>) => void): ReturnType<typeof readCoverModel> => {
  const file = JSON.parse(text);
  change(file);
  return readCoverModel(JSON.stringify(file));
};

describe('model files', () => {
  it('come back as they were written', () => {
    expect(readCoverModel(text)).toEqual({ ok: true, model });
    expect(writeCoverModel((readCoverModel(text) as { model: CoverModel }).model)).toBe(text);
  });

  it('have an id that goes with their content', async () => {
    const hash = (content: string) => `${content.length}-${content.slice(0, 20)}`;
    expect(await coverModelId(model, hash)).toBe(hash(text));
  });

  it('say which classes were not taught', () => {
    expect(fit.ok && fit.classesWithoutStrokes).toEqual(['clover']);
  });

  it('are refused with the field that is damaged', () => {
    expect(readCoverModel(text.slice(0, 100))).toMatchObject({ ok: false, problem: { code: 'not-json' } });
    expect(readCoverModel('[]')).toEqual({ ok: false, problem: { code: 'other-type', met: 'nothing' } });
    expect(changed((file) => Object.assign(file, { version: 2 }))).toEqual({
      ok: false,
      problem: { code: 'newer-version', met: 2, newest: 1 },
    });
    expect(changed((file) => Object.assign(file, { version: '1' }))).toMatchObject({
      problem: { code: 'bad-version', met: '"1"' },
    });
    expect(changed((file) => Object.assign(file, { featureSet: 'lab-scales-0' }))).toEqual({
      ok: false,
      problem: { code: 'other-feature-set', met: '"lab-scales-0"', known: 'lab-scales-1' },
    });
    const edit = (place: string, value: unknown) =>
      readCoverModel(JSON.stringify(JSON.parse(text), (key, old: unknown) => (key === place ? value : old)));
    expect(edit('contrast', 'high')).toMatchObject({
      problem: { code: 'bad-field', field: 'photos[0].look.contrast', met: '"high"' },
    });
    expect(edit('mean', [1, 2])).toMatchObject({
      problem: { code: 'bad-field', field: 'photos[0].parts[0][0].mean' },
    });
    expect(edit('scatter', new Array<number>(45).fill(-1))).toMatchObject({
      problem: { code: 'bad-field', field: 'photos[0].parts[0][0].scatter' },
    });
    expect(edit('classes', ['ryegrass', 'bare-ground'])).toMatchObject({
      problem: { code: 'bad-field', field: 'photos[0].parts[0]' },
    });
    expect(edit('classes', ['one', 'one', 'two'])).toMatchObject({
      problem: { code: 'bad-field', field: 'classes' },
    });
  });
});
