import { createContext, type ReactNode, use, useSyncExternalStore } from 'react';
import type { Observable } from './observable.ts';
import type { Session } from './session.ts';

const SessionContext = createContext<Session | null>(null);

export function SessionProvider({ session, children }: { session: Session; children: ReactNode }) {
  return <SessionContext value={session}>{children}</SessionContext>;
}

/** @throws Error outside a SessionProvider */
export function useSession(): Session {
  const session = use(SessionContext);
  if (!session) throw new Error('useSession needs a SessionProvider above it');
  return session;
}

/** The value now; renders again when it changes. */
export function useObservable<T>(observable: Observable<T>): T {
  return useSyncExternalStore(observable.subscribe, observable.get);
}
