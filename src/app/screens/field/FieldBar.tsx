import { fieldText } from '../../../core/text/field.ts';
import { Button } from '../../components/Button.tsx';
import { Icon } from '../../components/Icon.tsx';
import styles from './FieldBar.module.css';

interface FieldBarProps {
  readonly hasPhoto: boolean;
  /** The photo is not fit for measuring. */
  readonly retake: boolean;
  readonly storing: boolean;
  readonly cameraLabel: string;
  /** Null where none is left to do. */
  readonly nextPlot: string | null;
  readonly onCamera: () => void;
  readonly onNext: () => void;
  /** Null at the first stop. */
  readonly onBack: (() => void) | null;
  readonly onSkip: () => void;
}

/** What a thumb does: the one thing to do next is large and on the thumb's side. */
export function FieldBar(props: FieldBarProps) {
  const { hasPhoto, retake, storing, cameraLabel, nextPlot, onCamera, onNext, onBack, onSkip } = props;
  const cameraFirst = !hasPhoto || retake;
  const nextWords = nextPlot === null ? fieldText.finish : fieldText.nextPlot(nextPlot);
  const camera = (main: boolean) => (
    <Button
      look={main ? 'main' : 'plain'}
      className={main ? styles.main : styles.second}
      disabled={storing}
      aria-label={hasPhoto ? `${fieldText.retake}: ${cameraLabel}` : cameraLabel}
      onClick={onCamera}
    >
      <Icon name="camera" size={main ? 40 : 24} />
      {storing ? fieldText.storing : hasPhoto ? fieldText.retake : fieldText.camera}
    </Button>
  );
  const next = (main: boolean) => (
    <Button
      look={main ? 'main' : 'plain'}
      className={main ? styles.main : styles.second}
      disabled={storing}
      onClick={onNext}
    >
      {nextWords}
      {main && <Icon name="next" size={40} />}
    </Button>
  );
  return (
    <div className={styles.bar} role="toolbar" aria-label={fieldText.actions}>
      {cameraFirst ? camera(true) : next(true)}
      <div className={styles.rest}>
        {cameraFirst ? next(false) : camera(false)}
        <div className={styles.pair}>
          <Button disabled={onBack === null} aria-label={fieldText.back} onClick={onBack ?? undefined}>
            <Icon name="previous" size={24} />
          </Button>
          <Button disabled={hasPhoto} onClick={onSkip}>
            {fieldText.skip}
          </Button>
        </div>
      </div>
    </div>
  );
}
