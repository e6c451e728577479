import { tryDamaged, tryForged } from '../support/mutatedArchives.ts';
import { accuracyTable, measureAccuracy } from './accuracy.ts';
import { runAnalysisScript } from './analysisScript.ts';
import { measureArchiveMemory } from './archiveMemory.ts';
import { verifySampleTrial } from './archiveVerify.ts';
import { measureBatchSpeed } from './batchSpeed.ts';
import { measureBoardSpeed } from './boardSpeed.ts';
import { brushBeyondEmpty, brushSpeedTable, measureBrushSpeed } from './brushSpeed.ts';
import { checkSpeedTable, measureCheckSpeed } from './checkSpeed.ts';
import { compareClassifiers, comparisonTable } from './classifierComparison.ts';
import { compareScreenTable, measureCompareScreen } from './compareScreen.ts';
import { framesTable, measureFrames } from './frames.ts';
import { cardBenefitTable, measureCardBenefit } from './greyCardBenefit.ts';
import { labelsTable, measureLabels } from './labels.ts';
import { compareLetters, lettersTable } from './letters.ts';
import { maskEditingTable, measureMaskEditing } from './maskEditing.ts';
import { median } from './median.ts';
import { measureMemory } from './memory.ts';
import { measurePhotoSpeed, photoSpeedTable } from './photoSpeed.ts';
import { measurePlacing, placingText } from './placing.ts';
import { measurePointPace } from './pointPace.ts';
import { measurePointSimulations, pointSimulationRows, pointSimulationsTable } from './pointSimulations.ts';
import { elsewhere, row, type TargetRow } from './targets.ts';
import { measureTaughtAccuracy, taughtTable } from './taughtAccuracy.ts';
import { measureTeachSpeed, teachSpeedTable } from './teachSpeed.ts';

/** What one part of the benchmark found. */
export interface PartResult {
  /** For the JSON file. */
  readonly data: unknown;
  readonly text: string;
  readonly rows: readonly TargetRow[];
}

/** The parts in the order they run, by the name that chooses one. */
export const PARTS: Readonly<Record<string, () => Promise<PartResult>>> = {
  async accuracy() {
    const data = await measureAccuracy();
    const even = data.summaries.find(({ name }) => name === 'even plots')!;
    const { openDataset } = data;
    const mean = (value: (photo: NonNullable<typeof openDataset>[number]) => number) =>
      openDataset && openDataset.reduce((sum, photo) => sum + value(photo), 0) / openDataset.length;
    const rows = [
      row('start model, even plots, cover error', even.coverError, 'points', 6, 3),
      row(
        'open dataset, mean of two IoUs',
        mean(({ meanIou }) => meanIou),
        '',
        0.85,
        null,
        'larger',
      ),
      row(
        'open dataset, cover error',
        mean(({ coverError }) => coverError),
        'points',
        2.5,
        null,
      ),
    ];
    return { data, text: accuracyTable(data), rows };
  },

  async taught() {
    const data = await measureTaughtAccuracy();
    const same = data.summaries[0]!;
    const date = data.summaries.find(({ name }) => name.startsWith('date,'))!;
    const { unflaggedCoverError, flaggedShare, wrongByMoreThan5, wrongAndFlagged } = date;
    const flaggedOfWrong = wrongByMoreThan5 === 0 ? null : (100 * wrongAndFlagged) / wrongByMoreThan5;
    const peerIou = data.peer?.meanIou ?? 0.54;
    const rows = [
      row('taught on the photo itself, cover error', same.coverError, 'points', 2, 1),
      row('the same, mean IoU', same.meanIou, '', peerIou, peerIou + 0.03, 'larger'),
      row(
        'taught on four plots of a date, cover error where not flagged',
        unflaggedCoverError,
        'points',
        3,
        1.5,
      ),
      row('the same, photos flagged', 100 * flaggedShare, '%', 25, 10),
      row('the same, flagged of those wrong by more than 5 points', flaggedOfWrong, '%', 80, 100, 'larger'),
    ];
    return { data, text: taughtTable(data), rows };
  },

  async classifiers() {
    const data = await compareClassifiers();
    return { data, text: comparisonTable(data), rows: [] };
  },

  async letters() {
    const data = await compareLetters();
    return { data, text: lettersTable(data), rows: [] };
  },

  async compareScreen() {
    const data = await measureCompareScreen();
    const finding = median(data.findingMs);
    const rows = [row('compare screen, 1,000 plots x 12 dates, to the finding', finding, 'ms', 1000, 200)];
    return { data, text: compareScreenTable(data), rows };
  },

  async points() {
    const data = await measurePointSimulations();
    return { data, text: pointSimulationsTable(data), rows: pointSimulationRows(data) };
  },

  async pace() {
    const data = await measurePointPace();
    const rows = [
      row('next point shown after a key, median', data.medianMs, 'ms', 50, 16),
      row('the same, 19 of 20', data.slowMs, 'ms', 50, 16),
      row('calls lost of 100, 5 keys a second', data.keys - data.stored, '', 0, 0),
    ];
    return { data, text: '', rows };
  },

  async frames() {
    const data = await measureFrames();
    const card = await measureCardBenefit();
    const check = await measureCheckSpeed();
    const even = data.samples.find(({ name }) => name === 'even plots')!;
    const silent = data.samples.reduce((sum, { silentlyWrong }) => sum + silentlyWrong, 0);
    const slowest = data.speed.map(
      ({ decodeMs, frameMs, verdictMs }) => (decodeMs + frameMs + verdictMs) / decodeMs,
    );
    const rows = [
      row(
        'frame found within 3 px, even plots',
        (100 * even.within3Px) / even.pictures,
        '%',
        90,
        100,
        'larger',
      ),
      row('frames wrong without a warning, sample photos', silent, '', 0, 0),
      row(
        '12-MP photo to verdict (Node)',
        slowest.length > 0 ? Math.max(...slowest) : null,
        'x decode',
        12,
        4,
      ),
      row(
        '12-MP photo to verdict, browser worker',
        check && Math.max(...check.map(({ total }) => total)),
        'x decode',
        12,
        4,
      ),
    ];
    const text = [framesTable(data), cardBenefitTable(card), checkSpeedTable(check ?? [])].join('\n');
    return { data: { ...data, card, check }, text, rows };
  },

  async editing() {
    const data = await measureMaskEditing();
    const brush = await measureBrushSpeed();
    const rows = [
      row(
        'brush on a 12-MP mask, event to frame less an empty canvas, 95 %',
        brushBeyondEmpty(brush),
        'ms',
        32,
        16,
      ),
      row('undo of 200 strokes on a 12-MP mask', data.strokes.patchesMb, 'MB', 60, 15),
    ];
    return {
      data: { ...data, brush },
      text: [maskEditingTable(data), brushSpeedTable(brush)].join('\n'),
      rows,
    };
  },

  async placing() {
    const data = measurePlacing();
    const { rightPercent, wrong } = data;
    const rows = [
      row('mixed batches, photos put to their plot', rightPercent, '%', 98, 100, 'larger'),
      row('the same, certain of another', wrong, '', 0, 0),
    ];
    return { data, text: placingText(data), rows };
  },

  async board() {
    const data = await measureBoardSpeed();
    const rows = [row('board with 1,000 photos opens', data.openMs / 1000, 's', 1, 0.3)];
    const text = `Board of ${data.photos} photos: ${data.openMs.toFixed(0)} ms, with the whole page ${data.loadMs.toFixed(0)} ms`;
    return { data, text, rows };
  },

  async labels() {
    const data = await measureLabels();
    return { data, text: labelsTable(data), rows: [] };
  },

  async speed() {
    const data = await measurePhotoSpeed();
    const rows = (data ?? [null]).flatMap((photo) => [
      row(
        `12-MP JPEG to cover, start model${named(photo)}${photo?.find ? ', frame looked for' : ''}`,
        photo?.totalInDecodes ?? null,
        'x decode',
        6,
        2.5,
      ),
      row('the same, processor time', photo?.processorInDecodes ?? null, 'x decode', 6, 2.5),
    ]);
    return { data, text: photoSpeedTable(data ?? []), rows };
  },

  async teaching() {
    const data = await measureTeachSpeed();
    const rows = (data ?? [null]).flatMap((photo) => [
      row(
        `12-MP JPEG to cover, taught model${named(photo)}`,
        photo?.taughtInDecodes ?? null,
        'x decode',
        8,
        3,
      ),
      row(
        `stroke to the whole photo labelled${named(photo)}`,
        photo?.wholeInDecodes ?? null,
        'x decode',
        2,
        0.5,
      ),
    ]);
    return { data, text: teachSpeedTable(data ?? []), rows };
  },

  async batch() {
    const data = await measureBatchSpeed();
    const rows = [
      row('longest main-thread task during a batch', data.longestTaskMs, 'ms', 50, 16),
      row('batch, two workers against one', data.speedUp, 'times', 1.5, 1.7, 'larger'),
    ];
    return { data, text: '', rows };
  },

  async memory() {
    const data = await measureMemory();
    const rows = [
      row('renderer peak, one 12-MP photo', data.onePhotoPeakMib, 'MiB', 700, 400),
      row('renderer peak, 12-MP photos, two workers', data.twoWorkersPeakMib, 'MiB', 1000, 600),
      row('renderer growth, photo 50 to 300', data.growthPercent, '%', 5, 0),
    ];
    return { data, text: '', rows };
  },

  async archive() {
    const memory = await measureArchiveMemory();
    const verification = await verifySampleTrial();
    const scripts = runAnalysisScript();
    const hostile = { damaged: await tryDamaged(2000, 11), forged: await tryForged(1000, 12) };
    const failedScripts = scripts.filter(({ passed }) => passed === false).length;
    const rows = [
      row(
        'archive of 200 MB written, renderer peak above its base',
        memory?.writingMib ?? null,
        'MiB',
        64,
        null,
      ),
      row('the same read', memory?.readingMib ?? null, 'MiB', 64, null),
      row(
        'verify, sample trial, largest difference of a figure',
        verification.exitCode === 0 ? verification.largestDifference : null,
        'points',
        0.01,
        0,
      ),
      row(
        'the same, masks made again byte by byte',
        (100 * verification.sameMasks) / verification.masks,
        '%',
        100,
        100,
        'larger',
      ),
      row(
        'tables of the sample trial that R does not make again',
        scripts.some(({ passed }) => passed === null) ? null : failedScripts,
        'of 6',
        0,
        0,
      ),
    ];
    const text = [
      verification.said,
      ...scripts.map(
        ({ name, passed, largestDifference }) =>
          `analysis.R, ${name}: ${passed === null ? 'R is not installed' : passed ? `the same to ${largestDifference}` : 'differs'}`,
      ),
      `damaged archives: ${JSON.stringify(hostile.damaged)}; forged ones: ${JSON.stringify(hostile.forged)}; none half taken in`,
    ].join('\n');
    return {
      data: { memory, verification, scripts: scripts.map(({ said: _said, ...rest }) => rest), hostile },
      text,
      rows,
    };
  },

  /** What is measured by other commands, so that no row of the targets is missing. */
  async elsewhere() {
    const rows = [
      elsewhere('page and command line, same photo', 'points', 0.01, 0, 'npm test: tests/parity'),
      elsewhere('statistics beyond the tolerances of their references', '', 0, 0, 'npm test: tests/core'),
      elsewhere('strokes lost by 30 kills of the browser', '', 0, 0, 'npm run test:kill'),
      elsewhere('first load, compressed', 'kB', 250, 150, 'npm run test:e2e -- firstLoad'),
      elsewhere('requests to another origin', '', 0, 0, 'npm run test:e2e: each fails on one'),
      elsewhere('serious axe findings', '', 0, 0, 'npm run test:e2e: each state is looked at'),
      elsewhere('offline after a reload, full disk, update', '', 0, 0, 'npm run test:e2e -- offline faults'),
      elsewhere('archive of 5 GB, above its base', 'MiB', 64, null, 'by hand'),
      elsewhere('fresh machine: clone to the sample trial', 'min', 3, 1, 'by hand: npm start'),
      elsewhere('npm test, warm', 'min', 10, 3, 'npm test prints it'),
    ];
    return { data: null, text: '', rows };
  },
};

const named = (photo: { readonly photo: string } | null) => (photo ? `, ${photo.photo}` : '');
