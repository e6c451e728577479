import type { PlotFrame } from '../../core/geometry/plotFrame.ts';
import { photoPoint } from '../../core/geometry/points.ts';
import type { NewPhoto } from '../../storage/newPhotoRecords.ts';

/** A bundled photo of the invented sample trial, with what is known of it. Fetched when it is asked for. */
export interface SamplePhoto extends Required<Pick<NewPhoto, 'frame' | 'neutral' | 'ignored'>> {
  readonly name: string;
  fetch(): Promise<File>;
}

type Pair = readonly [number, number];

interface SampleFacts {
  readonly photo: string;
  readonly frame: readonly [Pair, Pair, Pair, Pair];
  readonly frameSizeMm: Pair;
  readonly greyCard: readonly [number, number, number, number] | null;
  readonly greyCardCorners: readonly Pair[] | null;
}

const addresses = import.meta.glob<string>('../../../sample-images/photos/*.jpg', {
  query: '?url&no-inline',
  import: 'default',
  eager: true,
});

const facts = import.meta.glob<readonly SampleFacts[]>('../../../sample-images/photos.json', {
  import: 'photos',
  eager: true,
});

export const samplePhotos: readonly SamplePhoto[] = Object.values(facts)
  .flat()
  .map(({ photo, frame, frameSizeMm, greyCard, greyCardCorners }) => {
    const name = photo.slice(photo.lastIndexOf('/') + 1);
    const address = addresses[`../../../sample-images/photos/${name}`]!;
    const corners = frame.map(([x, y]) => photoPoint(x, y)) as unknown as PlotFrame['corners'];
    return {
      name,
      frame: { corners, sizeMm: frameSizeMm },
      neutral: greyCard,
      ignored: greyCardCorners ? [greyCardCorners.map(([x, y]) => photoPoint(x, y))] : [],
      async fetch() {
        const response = await fetch(address);
        if (!response.ok) throw new Error(`${name}: ${response.status} ${response.statusText}`);
        return new File([await response.blob()], name, { type: 'image/jpeg' });
      },
    };
  });
