import { createContext, type ReactNode, use } from 'react';
import { useObservable } from '../session/useSession.tsx';
import type { OfflineProgram, OfflineState } from './offlineProgram.ts';

const OfflineContext = createContext<OfflineProgram | null>(null);

export function OfflineProvider({ program, children }: { program: OfflineProgram; children: ReactNode }) {
  return <OfflineContext value={program}>{children}</OfflineContext>;
}

/** Whether the program works without a network, and the way to a newer version. */
export function useOffline(): OfflineState & { takeUpdate: () => void } {
  const program = use(OfflineContext);
  if (!program) throw new Error('useOffline needs an OfflineProvider above it');
  return { ...useObservable(program.state), takeUpdate: () => program.takeUpdate() };
}
