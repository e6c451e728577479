import { setUnitSystem, type UnitSystem, unitSystemOf } from '../core/text/units.ts';
import { oneOf, storedPreference } from './components/usePreference.ts';

export const UNIT_SYSTEMS: readonly UnitSystem[] = ['metric', 'us'];
export const isUnitSystem = oneOf<UnitSystem>(...UNIT_SYSTEMS);

/** What the region of the device goes by. */
export const usualUnitSystem = (): UnitSystem => unitSystemOf(navigator.language);

/** Sets the units that are told beside the stored ones, before anything is shown. */
export function startUnitSystem(): void {
  setUnitSystem(storedPreference('units', usualUnitSystem(), isUnitSystem));
}
