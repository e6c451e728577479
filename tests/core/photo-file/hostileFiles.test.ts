import { expect, test } from 'vitest';
import { decodePhoto } from '../../../src/cli/decodePhoto.ts';
import { inspectPhotoFile } from '../../../src/core/photo-file/inspectPhotoFile.ts';
import { readPhotoFacts } from '../../../src/core/photo-file/readPhotoFacts.ts';
import { photoProblemText } from '../../../src/core/text/photoProblems.ts';
import { hostileFiles } from '../../support/hostileFiles.ts';

const files = await hostileFiles();

test('the corpus is as large as it says', () => {
  expect(files.length).toBeGreaterThanOrEqual(60);
  expect(new Set(files.map(({ name }) => name)).size).toBe(files.length);
});

test.each(files)('$name: $expected', async ({ bytes, expected }) => {
  expect(() => inspectPhotoFile(bytes)).not.toThrow();
  expect(() => readPhotoFacts(bytes)).not.toThrow();
  const result = await decodePhoto(bytes);
  if (result.ok) {
    expect(expected).toBeOneOf(['decodes', 'either']);
    expect(result.raster.data).toHaveLength(result.raster.widthPx * result.raster.heightPx * 4);
    return;
  }
  expect(photoProblemText(result.problem)).toMatch(/\.$/);
  if (expected === 'fails') expect(result.problem.code).toBeOneOf(['damaged', 'truncated']);
  else if (expected !== 'either') expect(result.problem.code).toBe(expected);
});
