import { useState } from 'react';
import { isBoolean, oneOf, usePreference } from '../../../components/usePreference.ts';

export type Look = 'classes' | 'outlines' | 'changes' | 'photo';
export const LOOKS: readonly Look[] = ['classes', 'outlines', 'changes', 'photo'];

/** How photo and mask are looked at while correcting. */
export function useLooks() {
  const [look, setLook] = usePreference<Look>('correct.look', 'classes', oneOf(...LOOKS));
  const [magnifier, setMagnifier] = usePreference('correct.magnifier', false, isBoolean);
  const [beside, setBeside] = useState(false);
  const [bare, setBare] = useState(false);
  return {
    look,
    setLook,
    next: () => setLook(LOOKS[(LOOKS.indexOf(look) + 1) % LOOKS.length]!),
    magnifier,
    setMagnifier,
    /** The computed classes on a stage of their own. */
    beside,
    setBeside,
    /** The photo alone while a key or button is held. */
    bare,
    setBare,
  };
}

export type Looks = ReturnType<typeof useLooks>;
