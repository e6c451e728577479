import { createContext, type ReactNode, use, useCallback, useMemo, useRef, useState } from 'react';
import { app } from '../../core/text/app.ts';
import type { AddedFile } from '../session/session.ts';
import { useSession } from '../session/useSession.tsx';

/** Where adding stands. */
export type Adding =
  | { readonly state: 'idle' }
  | { readonly state: 'working'; readonly count: number | null }
  | { readonly state: 'done'; readonly files: readonly AddedFile[] }
  | { readonly state: 'failed'; readonly reason: string };

interface AddPhotos {
  readonly adding: Adding;
  /** Opens the file picker. */
  choose(): void;
  /** Opens the phone's camera, where the browser can. */
  takePhoto(): void;
  add(files: readonly File[]): void;
  addSamples(): void;
  /** Forgets the answer of the last adding. */
  dismiss(): void;
}

const AddPhotosContext = createContext<AddPhotos | null>(null);

export function useAddPhotos(): AddPhotos {
  const value = use(AddPhotosContext);
  if (!value) throw new TypeError('adding photos needs an AddPhotosProvider above it');
  return value;
}

/** Pictures, and the kinds that some pickers do not take for pictures. */
const ACCEPT = 'image/*,.heic,.heif,.avif';

/** Takes photos in from picker, camera, drop and samples, and keeps the answer until it is dismissed. */
export function AddPhotosProvider({ children }: { children: ReactNode }) {
  const session = useSession();
  const picker = useRef<HTMLInputElement>(null);
  const camera = useRef<HTMLInputElement>(null);
  const [adding, setAdding] = useState<Adding>({ state: 'idle' });

  const run = useCallback(async (count: number | null, work: () => Promise<readonly AddedFile[]>) => {
    setAdding({ state: 'working', count });
    try {
      setAdding({ state: 'done', files: await work() });
    } catch (error) {
      console.error(error);
      setAdding({ state: 'failed', reason: error instanceof Error ? error.message : String(error) });
    }
  }, []);

  const value = useMemo<AddPhotos>(
    () => ({
      adding,
      choose: () => picker.current!.click(),
      takePhoto: () => camera.current!.click(),
      add: (files) => files.length > 0 && void run(files.length, () => session.addFiles(files)),
      addSamples: () => void run(null, () => session.addSamplePhotos()),
      dismiss: () => setAdding({ state: 'idle' }),
    }),
    [adding, run, session],
  );

  const onChange = (input: HTMLInputElement) => {
    value.add([...input.files!]);
    // so that choosing the same file again is a change
    input.value = '';
  };
  return (
    <AddPhotosContext value={value}>
      <input
        ref={picker}
        type="file"
        accept={ACCEPT}
        multiple
        hidden
        aria-label={app.start.open}
        onChange={(event) => onChange(event.currentTarget)}
      />
      <input
        ref={camera}
        type="file"
        accept="image/*"
        capture="environment"
        hidden
        aria-label={app.start.takePhoto}
        onChange={(event) => onChange(event.currentTarget)}
      />
      {children}
    </AddPhotosContext>
  );
}
