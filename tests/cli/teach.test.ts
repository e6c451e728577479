import { copyFile, mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type CoverRow, readCoverTable } from '../../src/core/exchange/coverTable.ts';
import { bundled, swardbook } from '../support/swardbook.ts';
import { type TruePhoto, truePhoto } from '../support/trueStrokes.ts';

const MAY = ['2027-05-17_101.jpg', '2027-05-17_102.jpg', '2027-05-17_104.jpg'];
const APRIL = '2027-04-12_101.jpg';

let folder: string;
let photos: string;
let truth: ReadonlyMap<string, TruePhoto>;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'teach-'));
  photos = join(folder, 'photos');
  await mkdir(photos);
  for (const name of [...MAY, APRIL]) await copyFile(join('sample-images/photos', name), join(photos, name));
  truth = new Map(
    await Promise.all([...MAY, APRIL].map(async (name) => [name, await truePhoto(name, 120)] as const)),
  );
  await bundled; // so that no test pays for it
}, 120_000);
afterAll(() => rm(folder, { recursive: true }));

type Strokes = readonly { readonly class: string }[];

/** Annotations with all frames, and these strokes. */
async function annotationsWith(strokes: Readonly<Record<string, Strokes>>): Promise<string> {
  const entries = [...truth.values()].map(({ name, frame, frameSizeMm }) => [
    name,
    { frame, frameSizeMm, ...(strokes[name] && { strokes: strokes[name] }) },
  ]);
  const others = Object.entries(strokes).filter(([name]) => !truth.has(name));
  const path = join(folder, `annotations-${Math.random()}.json`);
  const file = {
    type: 'photo-annotations',
    version: 1,
    photos: Object.fromEntries([...entries, ...others.map(([name, own]) => [name, { strokes: own }])]),
  };
  await writeFile(path, JSON.stringify(file));
  return path;
}

const strokesOf = (name: string) => truth.get(name)!.strokes;
const paintedOnTwo = () => annotationsWith({ [MAY[0]!]: strokesOf(MAY[0]!), [MAY[1]!]: strokesOf(MAY[1]!) });
const ofPhoto = (rows: readonly CoverRow[], name: string) => rows.filter(({ photo }) => photo === name);

function coverError(rows: readonly CoverRow[], name: string): number {
  const off = ofPhoto(rows, name).map(({ classId, coverPercent }) =>
    Math.abs(coverPercent! - truth.get(name)!.coverPercent[classId!]!),
  );
  return off.reduce((sum, value) => sum + value, 0) / off.length;
}

describe.concurrent('measure, taught by strokes', () => {
  test('one model for the painted date, the start model for the other; the same table with one thread and two', async () => {
    const annotations = await paintedOnTwo();
    const [one, two] = await Promise.all(
      ['1', '2'].map((jobs) => swardbook('measure', photos, '--annotations', annotations, '--jobs', jobs)),
    );
    expect(one!.code).toBe(0);
    expect(two!.stdout).toBe(one!.stdout);
    const { rows } = readCoverTable(one!.stdout);
    const models = new Set(MAY.flatMap((name) => ofPhoto(rows, name)).map(({ model }) => model));
    expect(models.size).toBe(1);
    expect([...models][0]).toMatch(/^[0-9a-f]{64}$/);
    expect(new Set(ofPhoto(rows, APRIL).map(({ model }) => model))).toEqual(new Set(['start-1']));
    // the bar the taught model is held to on photos painted on: 2 points (mean over classes)
    for (const name of MAY.slice(0, 2)) expect(coverError(rows, name)).toBeLessThan(2);
    expect(rows.every(({ coverLow, coverHigh }) => coverLow === null && coverHigh === null)).toBe(true);
    expect(one!.stderr).toContain('2027-05-17: taught on 2 photos, model ');
    expect(one!.stderr).toMatch(/On your strokes, \d+ % agreement when held back\. This is not the accuracy/);
  });

  test('--save-model and --model: the saved model gives the same figures, and its id is that of its content', async () => {
    const saved = join(folder, 'model.json');
    const annotations = await paintedOnTwo();
    const may = MAY.map((name) => join(photos, name));
    const taught = await swardbook(
      ...['measure', ...may, '--annotations', annotations, '--save-model', saved],
    );
    expect(taught.code).toBe(0);
    const reformatted = join(folder, 'reformatted.json');
    await writeFile(reformatted, JSON.stringify(JSON.parse(await readFile(saved, 'utf8')), null, 2));
    // laid out otherwise it is the same model; the strokes are left aside
    const used = await swardbook('measure', ...may, '--annotations', annotations, '--model', reformatted);
    expect(used.stdout).toBe(taught.stdout);
    expect(used.stderr).toContain('Strokes on 2 photos are not used');

    const both = await swardbook(
      ...['measure', may[0]!, '--annotations', annotations, '--model', saved, '--save-model', saved],
    );
    expect([both.code, both.stdout]).toEqual([2, '']);
    expect(both.stderr).toContain('Leave one of the two away');
  });

  test('two painted dates give two models, each saved beside the name', async () => {
    const saved = join(folder, 'two', 'season.model.json');
    await mkdir(join(folder, 'two'));
    const annotations = await annotationsWith({
      [MAY[0]!]: strokesOf(MAY[0]!),
      [APRIL]: strokesOf(APRIL),
    });
    const { code, stdout } = await swardbook(
      ...['measure', photos, '--annotations', annotations, '--save-model', saved],
    );
    expect(code).toBe(0);
    expect((await readdir(join(folder, 'two'))).sort()).toEqual([
      'season.model-2027-04-12.json',
      'season.model-2027-05-17.json',
    ]);
    const { rows } = readCoverTable(stdout);
    expect(ofPhoto(rows, APRIL)[0]!.model).not.toBe(ofPhoto(rows, MAY[2]!)[0]!.model);
    expect(coverError(rows, APRIL)).toBeLessThan(2);
  });

  test('the date comes from the camera where the name has none; photos without any date are one group', async () => {
    const nameless = join(folder, 'nameless');
    await mkdir(nameless);
    await copyFile(join(photos, MAY[2]!), join(nameless, 'a.jpg'));
    await sharp(join(photos, APRIL)).png().toFile(join(nameless, 'b.png')); // without what the camera noted
    await sharp(join(photos, MAY[1]!)).png().toFile(join(nameless, 'c.png'));
    const annotations = await annotationsWith({ [MAY[0]!]: strokesOf(MAY[0]!), 'b.png': strokesOf(APRIL) });
    const { stdout, stderr } = await swardbook(
      ...['measure', nameless, join(photos, MAY[0]!), '--annotations', annotations],
    );
    const { rows } = readCoverTable(stdout);
    const modelOf = (name: string) => ofPhoto(rows, name)[0]!.model;
    expect(modelOf('a.jpg')).toBe(modelOf(MAY[0]!));
    expect(modelOf('c.png')).toBe(modelOf('b.png'));
    expect(modelOf('b.png')).not.toBe(modelOf('a.jpg'));
    expect(stderr).toContain('Photos without a date: taught on 1 photo');
  });

  test('--resume keeps rows under the same strokes and measures again under others', async () => {
    const out = join(folder, 'resumed.csv');
    const annotations = await paintedOnTwo();
    const run = (path: string) =>
      swardbook('measure', photos, '--annotations', path, '--out', out, '--resume');
    await run(annotations);
    const before = await readFile(out, 'utf8');
    expect((await run(annotations)).stderr).toContain('4 photos already measured, rows kept.');
    expect(await readFile(out, 'utf8')).toBe(before);
    const fewer = await annotationsWith({ [MAY[0]!]: strokesOf(MAY[0]!) });
    expect((await run(fewer)).stderr).toContain('1 photo already measured, rows kept.'); // that of April
    expect(await readFile(out, 'utf8')).not.toBe(before);
  });

  test('a class without strokes is never called, has 0 and a flag', async () => {
    const strokes = strokesOf(MAY[0]!).filter((stroke) => stroke.class !== 'weedy-grass');
    const { stdout, stderr } = await swardbook(
      ...['measure', join(photos, MAY[0]!), '--annotations', await annotationsWith({ [MAY[0]!]: strokes })],
    );
    const weedy = readCoverTable(stdout).rows.find(({ classId }) => classId === 'weedy-grass')!;
    expect([weedy.coverPercent, weedy.pixels]).toEqual([0, 0]);
    expect(weedy.flags).toContain('class-without-strokes');
    expect(stderr).toContain('no strokes of weedy-grass, which is therefore never found');
  });

  test('strokes of one class, or outside the frame, teach nothing: the date is named and not measured, the other is', async () => {
    const oneClass = strokesOf(MAY[0]!).filter((stroke) => stroke.class === 'ryegrass');
    const one = await swardbook(
      ...['measure', photos, '--annotations', await annotationsWith({ [MAY[0]!]: oneClass })],
    );
    expect(one.code).toBe(1);
    expect(new Set(readCoverTable(one.stdout).rows.map(({ photo }) => photo))).toEqual(new Set([APRIL]));
    expect(one.stderr).toContain(`${MAY[2]}: Nothing could be taught on the strokes of 2027-05-17.`);
    expect(one.stderr).toContain('Only ryegrass is painted. Paint a second class');

    const outside = [{ class: 'ryegrass', radiusPx: 0, points: [[1, 1]] }];
    const beside = await swardbook(
      ...['measure', photos, '--annotations', await annotationsWith({ [MAY[0]!]: outside })],
    );
    expect(beside.code).toBe(1);
    expect(beside.stderr).toContain(
      `${MAY[0]}: Stroke 1 (ryegrass) lies outside the measured area and teaches nothing.`,
    );
  });

  test('model files that cannot be used are refused with the reason, exit 2, nothing measured', async () => {
    const path = join(folder, 'bad.json');
    const refused = async (content: string, ...more: string[]) => {
      await writeFile(path, content);
      const { code, stdout, stderr } = await swardbook('measure', photos, '--model', path, ...more);
      expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
      return stderr;
    };
    expect(await refused('{"type": "cover-model", ')).toContain('The file is damaged');
    expect(await refused('{"type": "cover-model", "version": 99}')).toContain('reads up to 1');
    const features = '{"type": "cover-model", "version": 1, "featureSet": "other-7"}';
    expect(await refused(features)).toContain('other-7');

    const saved = join(folder, 'for-classes.json');
    await swardbook('measure', photos, '--annotations', await paintedOnTwo(), '--save-model', saved);
    const otherClasses = join(folder, 'other-classes.json');
    const file = { type: 'photo-annotations', version: 1, classes: ['ryegrass', 'moss'], photos: {} };
    await writeFile(otherClasses, JSON.stringify(file));
    expect(await refused(await readFile(saved, 'utf8'), '--annotations', otherClasses)).toContain(
      'The model tells apart ryegrass, weedy-grass, bare-ground; the classes of the annotations are ryegrass, moss.',
    );
    const nothingTaught = await swardbook('measure', photos, '--save-model', saved);
    expect(nothingTaught.code).toBe(2);
    expect(nothingTaught.stderr).toContain('no photo of this run has strokes');
  });
});
