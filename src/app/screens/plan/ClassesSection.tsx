import { useState } from 'react';
import { classesText as text } from '../../../core/text/classes.ts';
import { MOST_CLASSES, movedClass } from '../../../core/trial/classList.ts';
import type { CoverClass } from '../../../core/trial/coverClass.ts';
import { Button } from '../../components/Button.tsx';
import blocks from '../../components/blocks.module.css';
import { ClassSwatch } from '../../components/ClassSwatch.tsx';
import { Icon } from '../../components/Icon.tsx';
import { ClassDialog } from './ClassDialog.tsx';
import styles from './ClassesSection.module.css';
import { changeClasses } from './changeClasses.ts';
import { usePlan } from './planContext.tsx';

/** The kinds of cover a trial tells apart: names, letters, colours, and what each is added to. */
export function ClassesSection() {
  const { plan, edit } = usePlan();
  const { classes } = plan.trial;
  const [open, setOpen] = useState<CoverClass | 'new' | null>(null);
  const isFull = classes.length >= MOST_CLASSES;
  const move = (id: string, by: number) => void edit(changeClasses((before) => movedClass(before, id, by)));
  return (
    <>
      <ol className={styles.classes} aria-label={text.caption}>
        {classes.map((coverClass, index) => {
          const { id, name } = coverClass;
          return (
            <li key={id}>
              <ClassSwatch coverClass={coverClass} index={index} />
              <span className={styles.name}>
                {name}
                <RoleWords coverClass={coverClass} classes={classes} />
              </span>
              <span className={styles.tools}>
                <Button
                  look="quiet"
                  aria-label={text.up(name)}
                  disabled={index === 0}
                  onClick={() => move(id, -1)}
                >
                  <Icon name="up" />
                </Button>
                <Button
                  look="quiet"
                  aria-label={text.down(name)}
                  disabled={index === classes.length - 1}
                  onClick={() => move(id, 1)}
                >
                  <Icon name="down" />
                </Button>
                <Button look="quiet" aria-label={text.edit(name)} onClick={() => setOpen(coverClass)}>
                  {text.editWord}
                </Button>
              </span>
            </li>
          );
        })}
      </ol>
      <div className={blocks.row}>
        <Button disabled={isFull} onClick={() => setOpen('new')}>
          {text.add}
        </Button>
        {isFull && <p className={blocks.hint}>{text.full(MOST_CLASSES)}</p>}
      </div>
      {open !== null && (
        <ClassDialog coverClass={open === 'new' ? null : open} onClose={() => setOpen(null)} />
      )}
    </>
  );
}

/** What a class is added to, and whether it needs teaching. */
function RoleWords({ coverClass, classes }: { coverClass: CoverClass; classes: readonly CoverClass[] }) {
  const { id, reportingGroup, startRole } = coverClass;
  const host = classes.find((other) => other.id === reportingGroup && other.id !== id);
  const words = [
    ...(host ? [text.addedTo(host.name)] : []),
    ...(startRole === null ? [text.taughtOnly] : []),
  ];
  return words.length > 0 ? <small>{words.join(', ')}</small> : null;
}
