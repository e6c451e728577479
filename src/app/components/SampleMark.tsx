import { lazy, Suspense } from 'react';
import { isSampleId } from '../session/sampleId.ts';
import { usePhotos } from '../session/useSession.tsx';

const SampleStrip = lazy(async () => ({ default: (await import('./SampleStrip.tsx')).SampleStrip }));

/** Says on every screen that what is seen is rendered and invented, as long as the sample trial is here. */
export function SampleMark() {
  const isHere = usePhotos().some(({ id }) => isSampleId(id));
  if (!isHere) return null;
  return (
    <Suspense fallback={null}>
      <SampleStrip />
    </Suspense>
  );
}
