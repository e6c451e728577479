import { useState } from 'react';
import { chartText } from '../../core/text/charts.ts';
import { Button } from '../components/Button.tsx';
import { saveBlob } from '../components/saveBlob.ts';
import type { FigureContent } from './drawing.ts';
import { drawSheet } from './drawSheet.tsx';
import { type ExportOptions, exportFigure } from './exportFigure.ts';
import styles from './Figure.module.css';

const CHOICES = [
  { id: 'svg', words: chartText.saveAs.svg, format: 'svg', size: 'print' },
  { id: 'print', words: chartText.saveAs.print, format: 'png', size: 'print' },
  { id: 'slide', words: chartText.saveAs.slide, format: 'png', size: 'slide' },
] as const;

interface FigureSavingProps {
  readonly title: string;
  readonly fileName: string;
  /** The figure; what has to be fetched for it is let go by `release`. */
  readonly make: () => Promise<{ readonly content: FigureContent; readonly release?: () => void }>;
}

/** Saves a figure as a file: drawn anew for paper or slide, with all its words on it. */
export function FigureSaving({ title, fileName, make }: FigureSavingProps) {
  const [trouble, setTrouble] = useState<string | null>(null);
  const save = async ({ format, size }: ExportOptions, ending: string) => {
    setTrouble(null);
    try {
      const { content, release } = await make();
      try {
        const file = await exportFigure(drawSheet(content, size), { format, size });
        saveBlob(file, `${fileName}${ending}.${format}`);
      } finally {
        release?.();
      }
    } catch (error) {
      setTrouble(chartText.saveFailed(error instanceof Error ? error.message : String(error)));
    }
  };
  return (
    <details className={styles.saving}>
      <summary>{chartText.save}</summary>
      <div>
        {CHOICES.map(({ id, words, format, size }) => (
          <Button
            key={id}
            aria-label={chartText.saveLabel(words, title)}
            onClick={() => void save({ format, size }, id === 'slide' ? '-slide' : '')}
          >
            {words}
          </Button>
        ))}
      </div>
      <p role="status">{trouble}</p>
    </details>
  );
}
