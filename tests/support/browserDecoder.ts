import { fileURLToPath } from 'node:url';
import type { DecodeResult } from '../../src/core/photo-file/decodeResult.ts';
import type { DecoderVerdict } from '../../src/core/photo-file/decoderSelfTest.ts';
import { openBrowserWorker } from './browserWorker.ts';
import type { DecoderQuestion } from './decoder.worker.ts';

/** What the browser made of a file: its pixels, or why not. */
export type BrowserPixels =
  | { readonly ok: true; readonly widthPx: number; readonly heightPx: number; readonly data: Buffer }
  | Extract<DecodeResult, { ok: false }>;

export interface BrowserDecoder {
  decode(bytes: Uint8Array): Promise<BrowserPixels>;
  selfTest(): Promise<DecoderVerdict>;
  close(): Promise<void>;
}

/** The page's own decoding, `workers/decodePhoto.ts`, in a module worker of a real Chromium. */
export async function openBrowserDecoder(): Promise<BrowserDecoder> {
  const worker = await openBrowserWorker(fileURLToPath(new URL('./decoder.worker.ts', import.meta.url)));
  const ask = <Answer>(question: DecoderQuestion) => worker.ask<Answer>(question);
  return {
    async decode(bytes) {
      const photo = Buffer.from(bytes).toString('base64');
      const result = await ask<Extract<BrowserPixels, { ok: false }> | { ok: true; data: string }>({ photo });
      if (!result.ok) return result;
      return { ...result, data: Buffer.from(result.data, 'base64') } as BrowserPixels;
    },
    selfTest: () => ask('self-test'),
    close: () => worker.close(),
  };
}
