import { fieldText } from '../../../core/text/field.ts';
import { lastApplicationText } from '../../../core/text/trial.ts';
import { Button } from '../../components/Button.tsx';
import { Icon } from '../../components/Icon.tsx';
import styles from './FieldScreen.module.css';
import type { ReEntryNow } from './reEntryNow.ts';

const text = fieldText.reEntry;

interface ReEntryPageProps {
  readonly reEntry: ReEntryNow;
  readonly onLeave: () => void;
  readonly onConfirm: () => void;
}

/** Stands before the plots while a re-entry time has not passed or is not known. */
export function ReEntryPage({ reEntry: { last, at }, onLeave, onConfirm }: ReEntryPageProps) {
  if (at === 'passed') throw new TypeError('there is nothing to warn of');
  return (
    <div className={styles.page} role="alert">
      <h1 className={styles.warningTitle}>
        <Icon name="trouble" size={36} />
        {text.title}
      </h1>
      <p className={styles.lead}>{text[at]}</p>
      <p>{lastApplicationText(last)}</p>
      <p>{text.caution}</p>
      <p className={styles.soft}>{text.kept}</p>
      <div className={`${styles.foot} ${styles.footTwo}`}>
        <Button look="main" large className={styles.fill} onClick={onLeave}>
          {text.leave}
        </Button>
        <Button large className={styles.fill} onClick={onConfirm}>
          {text.confirm}
        </Button>
      </div>
    </div>
  );
}
