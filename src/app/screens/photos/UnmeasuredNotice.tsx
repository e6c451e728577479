import { useMemo } from 'react';
import { app } from '../../../core/text/app.ts';
import { Button } from '../../components/Button.tsx';
import { Notice } from '../../components/Notice.tsx';
import type { PhotoSummary } from '../../session/session.ts';
import { useSession } from '../../session/useSession.tsx';

/** Says that photos have no figure and that nothing is under way to make one, as after cancelling. */
export function UnmeasuredNotice({ photos }: { photos: readonly PhotoSummary[] }) {
  const session = useSession();
  const ids = useMemo(
    () => photos.filter(({ work, figure }) => work === null && figure === null).map(({ id }) => id),
    [photos],
  );
  if (ids.length === 0) return null;
  return (
    <Notice>
      <p>{app.measuring.notMeasured(ids.length)}</p>
      <Button onClick={() => session.retry(ids)}>{app.measuring.measureAll}</Button>
    </Notice>
  );
}
