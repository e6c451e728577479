import { defaultClassNames } from '../text/defaultClassNames.ts';
import type { CoverClass } from './coverClass.ts';

/**
 * The three classes a new trial starts with. Colours: Okabe and Ito's palette for colour-blind readers
 * (Color Universal Design, 2008): blue, yellow, vermilion.
 */
export const DEFAULT_CLASSES: readonly CoverClass[] = [
  {
    id: 'ryegrass',
    name: defaultClassNames.ryegrass,
    reportingGroup: 'ryegrass',
    startRole: 'dark-grass',
    key: 'R',
    colour: '#0072b2',
  },
  {
    id: 'weedy-grass',
    name: defaultClassNames.weedyGrass,
    reportingGroup: 'weedy-grass',
    startRole: 'light-grass',
    key: 'W',
    colour: '#f0e442',
  },
  {
    id: 'bare-ground',
    name: defaultClassNames.bareGround,
    reportingGroup: 'bare-ground',
    startRole: 'ground',
    key: 'B',
    colour: '#d55e00',
  },
];
