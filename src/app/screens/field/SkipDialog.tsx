import { useState } from 'react';
import { fieldText } from '../../../core/text/field.ts';
import { Button } from '../../components/Button.tsx';
import { Dialog } from '../../components/Dialog.tsx';
import { FormField } from '../../components/FormField.tsx';
import styles from './FieldScreen.module.css';

interface SkipDialogProps {
  readonly plot: string;
  readonly place: number | null;
  readonly onClose: () => void;
  readonly onSkip: (reason: string) => void;
}

/** Why a place is left out: one press for what happens often, words for the rest. */
export function SkipDialog({ plot, place, onClose, onSkip }: SkipDialogProps) {
  const [reason, setReason] = useState('');
  return (
    <Dialog title={fieldText.skipTitle(plot, place)} onClose={onClose}>
      <div className={styles.places}>
        {fieldText.skipReasons.map((one) => (
          <Button key={one} onClick={() => onSkip(one)}>
            {one}
          </Button>
        ))}
      </div>
      <form
        className={styles.part}
        onSubmit={(event) => {
          event.preventDefault();
          if (reason.trim() !== '') onSkip(reason.trim());
        }}
      >
        <FormField
          label={fieldText.skipReason}
          value={reason}
          onChange={setReason}
          hint={fieldText.skipHint}
        />
        <Button look="main" type="submit" disabled={reason.trim() === ''}>
          {fieldText.skipDo}
        </Button>
      </form>
    </Dialog>
  );
}
