import { useEffect, useState } from 'react';
import { classesText as text } from '../../../core/text/classes.ts';
import { planText } from '../../../core/text/plan.ts';
import { withoutClass } from '../../../core/trial/classList.ts';
import type { CoverClass } from '../../../core/trial/coverClass.ts';
import type { ClassUse } from '../../../storage/classUseStore.ts';
import { Button } from '../../components/Button.tsx';
import { Dialog } from '../../components/Dialog.tsx';
import { openClassUse } from '../../session/classUse.ts';
import { useSession } from '../../session/useSession.tsx';
import { changeClasses } from './changeClasses.ts';
import planStyles from './PlanScreen.module.css';
import { usePlan } from './planContext.tsx';

const FEWEST_CLASSES = 2;

/** Says what hangs on a class before it goes. */
export function RemoveClass({ coverClass, onClose }: { coverClass: CoverClass; onClose: () => void }) {
  const { plan, edit } = usePlan();
  const session = useSession();
  const [use, setUse] = useState<ClassUse | null>(null);
  const { id, name } = coverClass;
  useEffect(() => {
    let left = false;
    session
      .open(openClassUse)
      .then((store) => store.of(id))
      .then(
        (found) => !left && setUse(found),
        (error) => console.error('what hangs on a class cannot be read', error),
      );
    return () => {
      left = true;
    };
  }, [session, id]);
  const hangs = use && [use.strokes, use.pointCalls, use.correctedPhotos, use.measuredPhotos];
  const mayGo = plan.trial.classes.length > FEWEST_CLASSES;
  const remove = async () => {
    const result = await edit(changeClasses((before) => withoutClass(before, id)));
    if (result.ok) onClose();
  };
  return (
    <Dialog title={text.removeTitle(name)} onClose={onClose}>
      <div className={planStyles.form}>
        <p role="status">
          {!mayGo
            ? text.fewest
            : !hangs
              ? planText.opening
              : hangs.some((count) => count > 0)
                ? text.hangs(hangs[0]!, hangs[1]!, hangs[2]!, hangs[3]!)
                : text.nothingHangs}
        </p>
        <div className={planStyles.actions}>
          <Button onClick={onClose}>{planText.cancel}</Button>
          <Button look="main" disabled={!mayGo || !hangs} onClick={() => void remove()}>
            {text.removeSure}
          </Button>
        </div>
      </div>
    </Dialog>
  );
}
