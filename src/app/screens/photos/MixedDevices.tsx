import { mixedDevices } from '../../../core/quality/mixedDevices.ts';
import { mixedDevicesText } from '../../../core/text/quality.ts';
import { Notice } from '../../components/Notice.tsx';
import type { PhotoSummary } from '../../session/session.ts';

/** Says when the photos of one date come from several cameras. */
export function MixedDevices({ photos }: { photos: readonly PhotoSummary[] }) {
  const finding = mixedDevices(
    photos.map(({ name, camera }) => ({ photo: name, device: camera?.device ?? null })),
  );
  return finding && <Notice>{mixedDevicesText(finding)}</Notice>;
}
