import { type ReactNode, useRef } from 'react';

/** A hidden file field and the way to open it. */
export function useFilePicker(
  label: string,
  accept: string,
  onFile: (file: File) => void,
): [ReactNode, () => void] {
  const input = useRef<HTMLInputElement>(null);
  const field = (
    <input
      ref={input}
      type="file"
      hidden
      accept={accept}
      aria-label={label}
      onChange={(event) => {
        const file = event.target.files?.[0];
        event.target.value = '';
        if (file) onFile(file);
      }}
    />
  );
  return [field, () => input.current!.click()];
}
