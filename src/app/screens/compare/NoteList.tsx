import type { Note } from '../../../core/statistics/note.ts';
import { noteText } from '../../../core/text/statistics.ts';
import styles from './CompareScreen.module.css';

/** What a reader has to know about a result; each sentence once. */
export function NoteList({ notes }: { notes: readonly Note[] }) {
  const sentences = [...new Set(notes.map(noteText))];
  if (sentences.length === 0) return null;
  return (
    <ul className={styles.notes}>
      {sentences.map((sentence) => (
        <li key={sentence}>{sentence}</li>
      ))}
    </ul>
  );
}
