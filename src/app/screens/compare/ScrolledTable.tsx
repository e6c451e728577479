import type { ReactNode } from 'react';
import { compareText } from '../../../core/text/compare.ts';
import blocks from '../../components/blocks.module.css';
import styles from './CompareScreen.module.css';

interface ScrolledTableProps {
  /** Spoken; a heading above says it to those who see. */
  readonly title: string;
  /** Head and body. */
  readonly children: ReactNode;
}

/** A table that scrolls sideways by itself where the screen is narrower. */
export function ScrolledTable({ title, children }: ScrolledTableProps) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls can be scrolled with the keyboard
    <section className={blocks.scroller} tabIndex={0} aria-label={compareText.means.scroll(title)}>
      <table className={`${blocks.table} ${blocks.full} ${styles.table}`}>
        <caption className="visually-hidden">{title}</caption>
        {children}
      </table>
    </section>
  );
}
