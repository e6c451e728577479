import { type ReactNode, useCallback, useEffect, useRef, useState } from 'react';
import { fieldText } from '../../../core/text/field.ts';
import type { FieldDay, TakenPhoto } from '../../session/fieldDay.ts';

interface Camera {
  /** To be rendered somewhere: what browsers open cameras and pickers through. */
  readonly inputs: ReactNode;
  /** Opens the phone's own camera; the stop that awaits its photo is stored before. */
  readonly open: () => void;
  /** Opens the phone's pictures, for a photo that was taken and did not arrive. */
  readonly choose: () => void;
  /** Why the last photo was not taken in; null where it was. */
  readonly refused: Exclude<TakenPhoto, { state: 'added' }> | null;
  /** The photo taken last, to be shown before it has a thumbnail. */
  readonly taken: { readonly photoId: string; readonly url: string } | null;
}

/** The phone's own camera for the stop where the person stands. */
export function useCamera(day: FieldDay, who: string): Camera {
  const camera = useRef<HTMLInputElement>(null);
  const pictures = useRef<HTMLInputElement>(null);
  const [refused, setRefused] = useState<Camera['refused']>(null);
  const [taken, setTaken] = useState<Camera['taken']>(null);
  useEffect(() => () => URL.revokeObjectURL(taken?.url ?? ''), [taken]);
  useEffect(() => {
    const forget = () => void day.forgetAwaited();
    const inputs = [camera.current!, pictures.current!];
    for (const input of inputs) input.addEventListener('cancel', forget);
    return () => {
      for (const input of inputs) input.removeEventListener('cancel', forget);
    };
  }, [day]);

  const openInput = useCallback(
    async (input: HTMLInputElement) => {
      setRefused(null);
      await day.awaitPhoto();
      input.click();
    },
    [day],
  );
  const onChange = async (input: HTMLInputElement) => {
    const file = input.files?.[0];
    if (!file) return;
    const url = URL.createObjectURL(file);
    const answer = await day.take(file, who);
    // so that choosing the same file again is a change
    input.value = '';
    if (answer.state === 'added') setTaken({ photoId: answer.photoId, url });
    else {
      URL.revokeObjectURL(url);
      setRefused(answer);
    }
  };
  const shared = { type: 'file', accept: 'image/*', hidden: true } as const;
  return {
    inputs: (
      <>
        <input
          {...shared}
          ref={camera}
          capture="environment"
          aria-label={fieldText.camera}
          onChange={(event) => void onChange(event.currentTarget)}
        />
        <input
          {...shared}
          ref={pictures}
          aria-label={fieldText.choose}
          onChange={(event) => void onChange(event.currentTarget)}
        />
      </>
    ),
    open: () => void openInput(camera.current!),
    choose: () => void openInput(pictures.current!),
    refused,
    taken,
  };
}
