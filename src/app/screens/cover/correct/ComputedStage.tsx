import { useRef } from 'react';
import { PhotoStage } from '../../../canvas/PhotoStage.tsx';
import type { useSurface } from '../../../canvas/useSurface.ts';
import type { useView } from '../useView.ts';

interface ComputedStageProps {
  readonly label: string;
  readonly levels: Parameters<typeof PhotoStage>[0]['photo'];
  readonly view: Parameters<typeof PhotoStage>[0]['view'];
  readonly viewing: ReturnType<typeof useView>;
  readonly surface: ReturnType<typeof useSurface>;
  readonly mask: Parameters<typeof PhotoStage>[0]['mask'];
  readonly style: Parameters<typeof PhotoStage>[0]['maskStyle'];
  readonly opacity: number;
}

/** What was computed, moved and zoomed together with what is corrected. */
export function ComputedStage({
  label,
  levels,
  view,
  viewing,
  surface,
  mask,
  style,
  opacity,
}: ComputedStageProps) {
  const stage = useRef<HTMLDivElement>(null);
  return (
    <PhotoStage
      stage={stage}
      surface={surface}
      label={label}
      photo={levels}
      view={view}
      fitted={viewing.fitted}
      changeView={viewing.change}
      mask={mask}
      maskStyle={style}
      maskOpacity={opacity}
      onPoint={ignore}
    />
  );
}

const ignore = () => {};
