import { Magnifier } from '../../../canvas/Magnifier.tsx';
import { photoToScreen } from '../../../canvas/view.ts';
import { useObservable } from '../../../session/useSession.tsx';
import type { Tools } from './useTools.ts';

interface MagnifiedPlaceProps extends Omit<Parameters<typeof Magnifier>[0], 'at' | 'side' | 'photo'> {
  readonly tools: Tools;
  readonly levels: Parameters<typeof Magnifier>[0]['photo'];
  /** Of the stage, in CSS pixels. */
  readonly middle: number;
}

/** The place of the tool, larger, on the side of the stage where the tool is not. */
export function MagnifiedPlace({ tools, levels, middle, ...rest }: MagnifiedPlaceProps) {
  const { at } = useObservable(tools.place);
  if (!at) return null;
  const side = photoToScreen(rest.view, at)[0] < middle ? 'right' : 'left';
  return <Magnifier photo={levels} {...rest} at={at} side={side} />;
}
