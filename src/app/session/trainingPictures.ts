import type { MeasuredArea } from '../../core/geometry/measuredArea.ts';
import type { LabelMask } from '../../core/raster/labelMask.ts';
import { samplePhotos } from './samplePhotos.ts';

/** A rendered picture for observers to practise on, with the exact truth of every pixel. */
export interface TrainingPicture {
  readonly name: string;
  readonly picture: ImageBitmap;
  readonly truth: LabelMask;
  readonly area: MeasuredArea;
  /** Class ids by label, from label 1 on. */
  readonly classIds: readonly string[];
}

interface TrainingFacts {
  readonly photo: string;
  readonly truth: string;
  readonly box: readonly [left: number, top: number, width: number, height: number];
  readonly millimetresPerPixel: number;
  readonly pixels: Readonly<Record<string, number>>;
}

const truths = import.meta.glob<string>('../../../sample-images/training/*.png', {
  query: '?url&no-inline',
  import: 'default',
  eager: true,
});
const facts = import.meta.glob<readonly TrainingFacts[]>('../../../sample-images/training/training.json', {
  import: 'pictures',
  eager: true,
});

/** How many pictures a round has. */
export const TRAINING_PICTURES = Object.values(facts).flat().length;

/** Fetches and decodes the pictures. @throws Error where one cannot be fetched */
export function loadTrainingPictures(): Promise<readonly TrainingPicture[]> {
  return Promise.all(
    Object.values(facts)
      .flat()
      .map(async (fact): Promise<TrainingPicture> => {
        const [left, top, widthPx, heightPx] = fact.box;
        const sample = samplePhotos.find(({ name }) => name === fact.photo)!;
        const file = await sample.fetch();
        const response = await fetch(truths[`../../../sample-images/training/${fact.truth}`]!);
        if (!response.ok) throw new Error(`${fact.truth}: ${response.status} ${response.statusText}`);
        const labels = await labelsOf(await response.blob(), widthPx, heightPx);
        return {
          name: fact.photo,
          picture: await createImageBitmap(file, left, top, widthPx, heightPx),
          truth: { widthPx, heightPx, labels },
          area: {
            widthPx,
            heightPx,
            inside: new Uint8Array(widthPx * heightPx).fill(1),
            measuredPixels: widthPx * heightPx,
            bounds: { left: 0, top: 0, right: widthPx, bottom: heightPx },
            groundMap: null,
            millimetresPerPixel: fact.millimetresPerPixel,
          },
          classIds: Object.keys(fact.pixels),
        };
      }),
  );
}

/** The grey values of a picture are its labels, so that nothing may touch its colours on the way. */
async function labelsOf(png: Blob, width: number, height: number): Promise<Uint8Array<ArrayBuffer>> {
  const bitmap = await createImageBitmap(png, { colorSpaceConversion: 'none', premultiplyAlpha: 'none' });
  const context = new OffscreenCanvas(width, height).getContext('2d', { willReadFrequently: true })!;
  context.drawImage(bitmap, 0, 0);
  bitmap.close();
  const { data } = context.getImageData(0, 0, width, height);
  return Uint8Array.from({ length: width * height }, (_, index) => data[4 * index]!);
}
