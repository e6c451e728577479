import { offlineText } from '../../core/text/offline.ts';
import { useOffline } from '../offline/useOffline.tsx';

/** Whether the program works without a network on this device, in words. */
export function OfflineWords({ className }: { className?: string | undefined }) {
  const { program } = useOffline();
  return (
    <p className={className} role="status">
      {offlineText.program[program]}
    </p>
  );
}
