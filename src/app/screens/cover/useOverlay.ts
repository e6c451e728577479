import { useMemo, useState } from 'react';
import type { CoverClass } from '../../../core/trial/coverClass.ts';
import type { MaskStyle } from '../../canvas/paintMask.ts';
import { isBoolean, usePreference } from '../../components/usePreference.ts';

/** How the classes are laid over the photo. */
export interface Overlay {
  readonly on: boolean;
  readonly setOn: (on: boolean) => void;
  /** 0..1 */
  readonly opacity: number;
  readonly setOpacity: (opacity: number) => void;
  readonly patterns: boolean;
  readonly setPatterns: (on: boolean) => void;
  isShown(classId: string): boolean;
  toggle(classId: string): void;
  readonly style: Omit<MaskStyle, 'outlines'>;
}

const isShare = (value: unknown): value is number => typeof value === 'number' && value >= 0 && value <= 1;

/** The overlay as this device last had it; hidden classes come back with the next photo. */
export function useOverlay(classes: readonly CoverClass[]): Overlay {
  const [on, setOn] = usePreference('cover.overlay', true, isBoolean);
  const [opacity, setOpacity] = usePreference('cover.opacity', 0.5, isShare);
  const [patterns, setPatterns] = usePreference('cover.patterns', false, isBoolean);
  const [hidden, setHidden] = useState<ReadonlySet<string>>(new Set());
  const style = useMemo(
    () => ({
      classes,
      shown: new Set(classes.map(({ id }) => id).filter((id) => !hidden.has(id))),
      patterns,
    }),
    [classes, hidden, patterns],
  );
  return {
    on,
    setOn,
    opacity,
    setOpacity,
    patterns,
    setPatterns,
    isShown: (id) => !hidden.has(id),
    toggle(id) {
      const next = new Set(hidden);
      if (!next.delete(id)) next.add(id);
      setHidden(next);
    },
    style,
  };
}
