import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { copyFile, mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Jimp } from 'jimp';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { readCoverTable, writeCoverTable } from '../../src/core/exchange/coverTable.ts';
import { hostileFiles } from '../support/hostileFiles.ts';
import { bundled, startSwardbook, swardbook } from '../support/swardbook.ts';

const SAMPLES = 'sample-images/photos';
const NAMES = ['2027-04-12_101.jpg', '2027-04-12_102.jpg', '2027-05-17_104.jpg'];

let folder: string;
let photos: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'measure-'));
  photos = join(folder, 'photos');
  await mkdir(photos);
  for (const name of NAMES) await copyFile(join(SAMPLES, name), join(photos, name));
  await bundled; // so that no test pays for it
}, 120_000);
afterAll(() => rm(folder, { recursive: true }));

/** Annotations as the sample trial has them, for two of the photos. */
async function annotationsFile(more: object = {}): Promise<string> {
  const { photos: samples } = JSON.parse(await readFile('sample-images/photos.json', 'utf8'));
  const entries = NAMES.slice(0, 2).map((name) => {
    const sample = samples.find(({ photo }: { photo: string }) => photo.endsWith(name));
    const { frame, frameSizeMm, greyCard } = sample;
    return [
      name,
      { frame, frameSizeMm, ...(greyCard && { neutral: greyCard }), plot: `P${name.slice(11, 14)}` },
    ];
  });
  const path = join(folder, `annotations-${Math.random()}.json`);
  const file = { type: 'photo-annotations', version: 1, photos: { ...Object.fromEntries(entries), ...more } };
  await writeFile(path, JSON.stringify(file));
  return path;
}

describe.concurrent('measure', () => {
  test('--find-frame measures inside a frame that is sure, and says how each came about', async () => {
    const doubtful = '2027-06-21_404.jpg';
    await copyFile(join(SAMPLES, doubtful), join(folder, doubtful));
    const paths = [join(photos, NAMES[0]!), join(folder, doubtful)];
    const { code, stdout } = await swardbook(
      'measure',
      ...paths,
      '--find-frame',
      '--frame-size-mm',
      '500x500',
    );
    expect(code).toBe(0);
    const { rows } = readCoverTable(stdout);
    expect(rows[0]!.flags).toContain('frame-found');
    expect(rows[3]!.flags).toContain('frame-doubtful');
    // the inner edge holds some 337,000 of 750,000 pixels (photos.json), less the card
    const inside = rows.slice(0, 3).reduce((sum, { pixels }) => sum + pixels!, 0);
    expect(Math.abs(inside - 336_900)).toBeLessThan(4000);
    expect(rows.slice(3).reduce((sum, { pixels }) => sum + pixels!, 0)).toBe(750_000);
  });

  test('a frame size that is none, or without frames to be found, is refused', async () => {
    const bad = await swardbook('measure', photos, '--find-frame', '--frame-size-mm', '500');
    expect(bad).toMatchObject({ code: 2 });
    expect(bad.stderr).toContain('such as 500x500');
    const alone = await swardbook('measure', photos, '--frame-size-mm', '500x500');
    expect(alone.code).toBe(2);
    expect(alone.stderr).toContain('add --find-frame');
  });

  test('a folder: table on standard output, progress on standard error, exit 0', async () => {
    const { code, stdout, stderr } = await swardbook('measure', photos);
    const { rows, problems } = readCoverTable(stdout);
    expect(problems).toEqual([]);
    expect(code).toBe(0);
    expect(rows.map(({ photo }) => photo)).toEqual(NAMES.flatMap((name) => [name, name, name]));
    expect(rows[6]).toMatchObject({
      plot: '104',
      ratingDate: '2027-05-17',
      method: 'automatic',
      coverLow: null,
    });
    for (const name of NAMES) {
      const own = rows.filter(({ photo }) => photo === name);
      expect(own.reduce((sum, { coverPercent }) => sum + coverPercent!, 0)).toBeCloseTo(100, 2);
      expect(own.reduce((sum, { pixels }) => sum + pixels!, 0)).toBe(750_000);
    }
    expect(stderr).toContain('3 photos measured.');
  });

  test('a rule for small gaps: framed photos follow it, one without a scale says that it cannot', async () => {
    const annotations = await annotationsFile();
    const out = join(folder, 'gaps.csv');
    const args = ['measure', photos, '--annotations', annotations, '--out', out] as const;
    const groundOf = async () =>
      readCoverTable(await readFile(out, 'utf8')).rows.filter(({ classId }) => classId === 'bare-ground');
    expect((await swardbook(...args)).stderr).toContain('every pixel counted');
    const every = await groundOf();
    const ruled = await swardbook(...args, '--gap-rule-mm', '10', '--resume');
    expect(ruled.code).toBe(0);
    expect(ruled.stderr).toContain('no circle of 10 mm fits');
    expect(ruled.stderr).not.toContain('rows kept');
    const ground = await groundOf();
    expect(ground.map(({ flags }) => flags.includes('gap-rule-needs-scale'))).toEqual([false, false, true]);
    for (const i of [0, 1]) expect(ground[i]!.coverPercent!).toBeLessThan(every[i]!.coverPercent!);
    expect(ground[2]!.coverPercent).toBe(every[2]!.coverPercent);
    const record = JSON.parse(await readFile(`${out}.run.json`, 'utf8'));
    expect(record.photos[NAMES[0]!].gapsSmallerThanMm).toBe(10);
    expect((await swardbook(...args, '--gap-rule-mm', '10', '--resume')).stderr).toContain('rows kept');
  });

  test.each(['0', '-5', '101', 'wide', '5mm'])('a rule of %s mm is refused', async (met) => {
    const { code, stderr } = await swardbook('measure', photos, '--gap-rule-mm', met);
    expect(code).toBe(2);
    expect(stderr).toContain(`above 0 and up to 100, got "${met}"`);
  });

  test('annotations and masks: the shares of each mask are the figures of the table', async () => {
    const masks = join(folder, 'masks');
    const out = join(folder, 'framed.csv');
    const annotations = await annotationsFile();
    const { code, stdout } = await swardbook(
      ...['measure', photos, '--annotations', annotations, '--masks', masks, '--out', out, '--jobs', '2'],
    );
    expect({ code, stdout }).toEqual({ code: 0, stdout: '' });
    const { rows } = readCoverTable(await readFile(out, 'utf8'));
    expect(rows[0]!.plot).toBe('P101');
    expect((await readdir(masks)).sort()).toEqual(NAMES.map((name) => name.replace('.jpg', '.png')).sort());

    const bytes = await readFile(join(masks, '2027-05-17_104.png'));
    expect([bytes[24], bytes[25]]).toEqual([8, 0]); // 8 bits, one channel
    const { bitmap } = await Jimp.fromBuffer(bytes); // no frame: each pixel counts the same
    const counts = [0, 0, 0, 0];
    for (let i = 0; i < bitmap.data.length; i += 4) counts[bitmap.data[i]!]! += 1;
    expect([bitmap.width, bitmap.height]).toEqual([1000, 750]);
    expect(counts.slice(1)).toEqual(rows.slice(6).map(({ pixels }) => pixels));
    rows.slice(6).forEach(({ coverPercent }, i) => {
      expect(Math.abs(coverPercent! - counts[i + 1]! / 7500)).toBeLessThan(0.01);
    });

    const framed = await sharp(join(masks, '2027-04-12_101.png')).toColourspace('b-w').raw().toBuffer();
    expect(framed[0]).toBe(0); // outside the frame
    const inFrame = framed.reduce((sum, label) => sum + (label > 0 ? 1 : 0), 0);
    expect(rows.slice(0, 3).reduce((sum, { pixels }) => sum + pixels!, 0)).toBe(inFrame);
  });

  test('one thread and two write the same table', async () => {
    const [one, two] = await Promise.all(
      ['1', '2'].map((jobs) => swardbook('measure', photos, '--jobs', jobs)),
    );
    expect(one!.stdout).toBe(two!.stdout);
    expect(one!.stdout.length).toBeGreaterThan(100);
  });

  test('what fails is named with its way out, the rest is done, exit 1', async () => {
    const mixed = join(folder, 'mixed');
    await mkdir(mixed);
    await copyFile(join(SAMPLES, NAMES[0]!), join(mixed, 'a.jpg'));
    await copyFile(join(SAMPLES, NAMES[0]!), join(mixed, 'b.jpg'));
    await writeFile(join(mixed, 'c.jpg'), 'no picture');
    await writeFile(join(mixed, 'notes.txt'), 'no picture either');
    const annotations = await annotationsFile({ 'd.jpg': { frame: [[1, 2]] } });
    await copyFile(join(SAMPLES, NAMES[1]!), join(mixed, 'd.jpg'));
    const { code, stdout, stderr } = await swardbook('measure', mixed, '--annotations', annotations);
    expect(code).toBe(1);
    expect(new Set(readCoverTable(stdout).rows.map(({ photo }) => photo))).toEqual(new Set(['a.jpg']));
    // the day comes from the camera where the name tells none
    expect(readCoverTable(stdout).rows[0]).toMatchObject({ plot: null, ratingDate: '2027-04-12' });
    expect(stderr).toContain('b.jpg: These are the same bytes as a.jpg.');
    expect(stderr).toContain('c.jpg: This is no picture');
    expect(stderr).toContain('d.jpg: Annotation "frame" is [[1,2]]; allowed: four [x, y] corners');
    expect(stderr).toContain('1 other file in');
    expect(stderr).toContain('not in this run: 2027-04-12_101.jpg, 2027-04-12_102.jpg');
  });

  test('a frame out of the photo fails that photo', async () => {
    const annotations = await annotationsFile({
      [NAMES[2]!]: {
        frame: [
          [0, 0],
          [5000, 0],
          [900, 700],
          [0, 700],
        ],
      },
    });
    const { code, stderr } = await swardbook('measure', photos, '--annotations', annotations);
    expect(code).toBe(1);
    expect(stderr).toContain(
      `${NAMES[2]}: The top right corner of the frame (5000, 0) lies outside the photo.`,
    );
  });
});

describe('hostile files', () => {
  test('one run over them all: each is measured or named, nothing stops it', async () => {
    const corpus = await hostileFiles();
    const path = join(folder, 'hostile');
    await mkdir(path);
    for (const { name, bytes } of corpus) await writeFile(join(path, name), bytes);
    const { code, stdout, stderr } = await swardbook('measure', path, '--jobs', '2');
    expect({ code, stderr: code === 1 ? '' : stderr }).toEqual({ code: 1, stderr: '' });
    const measured = new Set(readCoverTable(stdout).rows.map(({ photo }) => photo));
    const named = new Set([...stderr.matchAll(/^ {2}(\S+): .+\.$/gm)].map((match) => match[1]!));
    for (const { name, expected } of corpus) {
      expect({ name, measured: measured.has(name), named: named.has(name) }).toEqual({
        name,
        measured: expected === 'decodes' || (expected === 'either' && measured.has(name)),
        named: expected !== 'decodes' && !(expected === 'either' && measured.has(name)),
      });
    }
  }, 60_000);
});

describe.concurrent('--resume', () => {
  test('measures what is new or changed and keeps the rest', async () => {
    const own = join(folder, 'resume');
    const out = join(folder, 'resume.csv');
    const run = () => swardbook('measure', own, '--out', out, '--resume');
    await mkdir(own);
    for (const name of NAMES.slice(0, 2)) await copyFile(join(SAMPLES, name), join(own, name));
    expect((await run()).stderr).toContain('2 photos measured.');
    const before = await readFile(out, 'utf8');
    expect((await run()).stderr).toContain('2 photos already measured, rows kept.');
    expect(await readFile(out, 'utf8')).toBe(before);

    // a new photo, and one that is another photo now
    await copyFile(join(SAMPLES, NAMES[2]!), join(own, NAMES[2]!));
    await copyFile(join(SAMPLES, '2027-04-12_201.jpg'), join(own, NAMES[1]!));
    const third = await run();
    expect(third.stderr).toContain('1 photo already measured, rows kept.');
    const { rows } = readCoverTable(await readFile(out, 'utf8'));
    expect(rows.map(({ photo }) => photo)).toEqual(NAMES.flatMap((name) => [name, name, name]));

    // a row edited by hand is measured again, rows of other photos stay
    const edited = rows.map((row, i) => (i === 0 ? { ...row, coverPercent: 99 } : row));
    await writeFile(out, writeCoverTable([...edited, { ...rows[0]!, photo: 'elsewhere.jpg' }]));
    const fourth = await run();
    expect(fourth.stderr).toContain('2 photos already measured, rows kept.');
    expect(fourth.stderr).toContain('Rows of 1 photo that are not in this run stay');
    const last = readCoverTable(await readFile(out, 'utf8')).rows;
    expect(last[0]!.coverPercent).toBe(rows[0]!.coverPercent);
    expect(last.at(-1)!.photo).toBe('elsewhere.jpg');
  });

  test('other settings are measured again', async () => {
    const out = join(folder, 'settings.csv');
    await swardbook('measure', photos, '--out', out);
    const annotations = await annotationsFile();
    const { stderr } = await swardbook(
      'measure',
      photos,
      '--out',
      out,
      '--resume',
      '--annotations',
      annotations,
    );
    expect(stderr).toContain('1 photo already measured, rows kept.');
  });

  test('a table that cannot be read is not overwritten', async () => {
    const out = join(folder, 'precious.csv');
    await writeFile(out, 'my,own,notes\n1,2,3\n');
    const { code, stderr } = await swardbook('measure', photos, '--out', out, '--resume');
    expect(code).toBe(2);
    expect(stderr).toContain('precious.csv" is no cover table');
    expect(await readFile(out, 'utf8')).toBe('my,own,notes\n1,2,3\n');
  });
});

test('stopped by a signal: the table holds what was done, and --resume goes on', async () => {
  const out = join(folder, 'stopped.csv');
  const { child, ended } = await startSwardbook('measure', SAMPLES, '--out', out, '--jobs', '1');
  child.stderr!.once('data', () => setTimeout(() => child.kill('SIGINT'), 300));
  const { code, stderr } = await ended;
  expect(code).toBe(130);
  expect(stderr).toMatch(/Stopped: \d+ of 64 photos measured/);
  const { rows, problems } = readCoverTable(await readFile(out, 'utf8'));
  expect(problems).toEqual([]);
  expect(rows.length % 3).toBe(0);
  expect(rows.length).toBeGreaterThan(0);
  expect(rows.length).toBeLessThan(64 * 3);
  expect((await readdir(folder)).filter((name) => name.includes('.part-'))).toEqual([]);
  const first = rows[0]!.photo!;
  const resumed = await swardbook('measure', join(SAMPLES, first), '--out', out, '--resume');
  expect(resumed.stderr).toContain('1 photo already measured, rows kept.');
});

describe.concurrent('unusable arguments end with 2 and a sentence that names them', () => {
  test.each<[string, string[], string]>([
    ['no photos', ['measure'], "missing required argument 'photo'"],
    ['an unknown option', ['measure', 'x', '--colour'], "unknown option '--colour'"],
    ['an unknown command', ['weigh'], "unknown command 'weigh'"],
    ['a path that is not there', ['measure', 'no/such.jpg'], '"no/such.jpg"'],
    ['a folder without photos', ['measure', 'src'], 'No photos in src'],
    [
      'no number of jobs',
      ['measure', SAMPLES, '--jobs', 'many'],
      '--jobs is a whole number from 1 to 64, got "many"',
    ],
    ['0 jobs', ['measure', SAMPLES, '--jobs', '0'], 'got "0"'],
    ['--resume without --out', ['measure', SAMPLES, '--resume'], '--resume needs --out'],
    [
      '--out in no folder',
      ['measure', SAMPLES, '--out', 'no/such/cover.csv'],
      '"no/such/cover.csv" does not exist',
    ],
    ['--out as a folder', ['measure', SAMPLES, '--out', 'src'], '--out "src" is a folder'],
    ['a device', ['measure', '/dev/null'], '"/dev/null"'],
    [
      '--masks as a file',
      ['measure', SAMPLES, '--masks', 'package.json'],
      '"package.json" cannot be written',
    ],
    ['no annotations file', ['measure', SAMPLES, '--annotations', 'no.json'], '--annotations "no.json"'],
    ['other annotations', ['measure', SAMPLES, '--annotations', 'package.json'], 'an annotations file says'],
    ['equal names', ['measure', SAMPLES, 'sample-images/truth'], 'have the same name'],
  ])('%s', async (_, args, sentence) => {
    const { code, stdout, stderr } = await swardbook(...args);
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(stderr).toContain(sentence);
  });

  test('classes that nothing can tell apart', async () => {
    const path = join(folder, 'moss.json');
    await writeFile(
      path,
      JSON.stringify({ type: 'photo-annotations', version: 1, classes: ['moss'], photos: {} }),
    );
    const { code, stderr } = await swardbook('measure', photos, '--annotations', path);
    expect(code).toBe(2);
    expect(stderr).toContain('(moss) cannot be told apart without teaching');
  });

  test('npm run swardbook passes the exit code on', async () => {
    const child = spawn(process.execPath, ['src/setup/swardbook.mjs', 'measure', 'no/such.jpg']);
    expect(await once(child, 'close')).toEqual([2, null]);
  }, 60_000);

  test('--help ends with 0 and goes to standard output', async () => {
    const { code, stdout } = await swardbook('measure', '--help');
    expect(code).toBe(0);
    expect(stdout).toContain('--annotations <file>');
  });
});
