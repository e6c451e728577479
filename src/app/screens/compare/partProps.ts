import type { ComparedTrial } from './comparedTrial.ts';
import type { Shown } from './useDateShown.ts';

/** What the screen hands to each of its parts. */
export interface PartProps {
  readonly compared: ComparedTrial;
  readonly shown: Shown;
  readonly onAmend: () => void;
}
