import { use, useState } from 'react';
import { Link } from 'wouter';
import { app } from '../../../core/text/app.ts';
import { fieldText } from '../../../core/text/field.ts';
import { Button } from '../../components/Button.tsx';
import { ConditionsDialog } from '../../components/ConditionsDialog.tsx';
import { Dialog } from '../../components/Dialog.tsx';
import { THEMES, ThemeContext } from '../../components/useTheme.ts';
import type { FieldDayState } from '../../session/fieldDay.ts';
import styles from './FieldScreen.module.css';
import { ratingOf, useSignedEdit } from './StartOfDay.tsx';

const text = fieldText.settings;

interface FieldSettingsProps {
  readonly state: FieldDayState;
  readonly ratingDate: string;
  readonly who: string;
  readonly awake: boolean;
  readonly leftHanded: boolean;
  readonly onLeftHanded: (left: boolean) => void;
  readonly onClose: () => void;
  readonly onEnd: () => void;
}

/** The hand, the light, and the ways out. */
export function FieldSettings(props: FieldSettingsProps) {
  const { state, ratingDate, who, awake, leftHanded, onLeftHanded, onClose, onEnd } = props;
  const [theme, setTheme] = use(ThemeContext);
  const [conditions, setConditions] = useState(false);
  const edit = useSignedEdit(who);
  const rating = ratingOf(state.trial!.plan, ratingDate);
  if (conditions && rating) return <ConditionsDialog rating={rating} edit={edit} onClose={onClose} />;
  return (
    <Dialog title={text.title} onClose={onClose}>
      <fieldset className={styles.part}>
        <legend>{text.hand}</legend>
        <div className={styles.two}>
          {[true, false].map((left) => (
            <Button key={String(left)} aria-pressed={left === leftHanded} onClick={() => onLeftHanded(left)}>
              {left ? fieldText.hand.left : fieldText.hand.right}
            </Button>
          ))}
        </div>
      </fieldset>
      <fieldset className={styles.part}>
        <legend>{text.screen}</legend>
        <div className={styles.two}>
          {THEMES.map((one) => (
            <Button key={one} aria-pressed={one === theme} onClick={() => setTheme(one)}>
              {app.theme[one]}
            </Button>
          ))}
        </div>
        <p className={styles.soft}>{awake ? text.awake : text.notAwake}</p>
      </fieldset>
      <div className={styles.places}>
        {rating && <Button onClick={() => setConditions(true)}>{text.conditions}</Button>}
        <Button onClick={onEnd}>{fieldText.finish}</Button>
        <Link href="/field" className={styles.wide}>
          {text.otherDate}
        </Link>
        <Link href="/photos" className={styles.wide}>
          {text.leave}
        </Link>
      </div>
    </Dialog>
  );
}
