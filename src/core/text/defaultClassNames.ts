import { catalogue } from './catalogue.ts';

/** What the three classes of a new trial are called; from then on the names are the trial's own. */
export const defaultClassNames = catalogue('defaultClassNames', {
  ryegrass: 'Ryegrass',
  weedyGrass: 'Weedy grass',
  bareGround: 'Bare ground (soil, thatch, dormant turf)',
});
