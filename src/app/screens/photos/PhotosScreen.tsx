import { useMemo, useState } from 'react';
import { app } from '../../../core/text/app.ts';
import { area } from '../../../core/text/area.ts';
import type { Command } from '../../commands/command.ts';
import { useCommands } from '../../commands/registry.tsx';
import { AddingReport } from '../../components/AddingReport.tsx';
import { useAddPhotos } from '../../components/AddPhotos.tsx';
import { Button } from '../../components/Button.tsx';
import { DefinitionNotice } from '../../components/DefinitionNotice.tsx';
import { EditDialog } from '../../components/EditDialog.tsx';
import { FieldLink } from '../../components/FieldLink.tsx';
import { Icon } from '../../components/Icon.tsx';
import { lookReasons } from '../../components/needsLook.ts';
import { OnlyHere } from '../../components/OnlyHere.tsx';
import { Page } from '../../components/Page.tsx';
import { groupPhotos } from '../../components/photoOrder.ts';
import { Segments } from '../../components/Segments.tsx';
import { usePhotoOrder } from '../../components/usePhotoOrder.ts';
import { oneOf, usePreference } from '../../components/usePreference.ts';
import { confirmFrames } from '../../session/confirmFrames.ts';
import { usePhotos, useSession } from '../../session/useSession.tsx';
import { PhotoGroupSection } from './PhotoGroupSection.tsx';
import styles from './PhotosScreen.module.css';
import { PhotoTable } from './PhotoTable.tsx';
import { RemoveDialog } from './RemoveDialog.tsx';
import { SelectionBar } from './SelectionBar.tsx';
import { TroubleList } from './TroubleList.tsx';
import { UnmeasuredNotice } from './UnmeasuredNotice.tsx';
import { useSelection } from './useSelection.ts';

type Show = 'pictures' | 'table';
const isShow = oneOf<Show>('pictures', 'table');

/** All photos with plot, date and cover; the place to add, order, name and remove them. */
export function PhotosScreen() {
  const session = useSession();
  const photos = usePhotos();
  const { choose, takePhoto } = useAddPhotos();
  const [order, setOrder] = usePhotoOrder();
  const [show, setShow] = usePreference<Show>('photos.show', 'pictures', isShow);
  const [dialog, setDialog] = useState<'edit' | 'remove' | null>(null);
  const [said, setSaid] = useState('');
  const [onlyLook, setOnlyLook] = useState(false);
  const toLook = useMemo(() => photos.filter((photo) => lookReasons(photo).length > 0), [photos]);
  const filtered = onlyLook ? toLook : photos;
  const groups = useMemo(() => groupPhotos(filtered, order), [filtered, order]);
  const inOrder = useMemo(() => groups.flatMap((group) => group.photos), [groups]);
  const selection = useSelection(inOrder);
  const { selected } = selection;

  const commands = useMemo<readonly Command[]>(() => {
    const hasSelection = () => selected.length > 0;
    return [
      {
        id: 'select-all',
        label: app.commands.selectAll,
        shortcut: { key: 'a', mod: true },
        isEnabled: () => true,
        run: selection.selectAll,
      },
      {
        id: 'select-none',
        label: app.commands.selectNone,
        shortcut: { key: 'Escape' },
        isEnabled: hasSelection,
        run: selection.clear,
      },
      {
        id: 'edit',
        label: app.commands.edit,
        shortcut: { key: 'e' },
        isEnabled: hasSelection,
        run: () => setDialog('edit'),
      },
      {
        id: 'remove',
        label: app.commands.remove,
        shortcut: { key: 'Delete' },
        isEnabled: hasSelection,
        run: () => setDialog('remove'),
      },
      {
        id: 'pictures-or-table',
        label: app.commands.togglePictures,
        shortcut: { key: 't' },
        isEnabled: () => true,
        run: () => setShow(show === 'pictures' ? 'table' : 'pictures'),
      },
    ];
  }, [selected, selection.selectAll, selection.clear, show, setShow]);
  useCommands(commands);

  const unconfirmed = selected.filter(({ frameBy }) => frameBy === 'finder');
  const confirm = async () => {
    await session.open(confirmFrames(unconfirmed.map(({ id }) => id)));
    selection.clear();
    setSaid(area.confirmed(unconfirmed.length));
  };
  return (
    <Page
      title={app.photos.title}
      namedByTab
      wide
      aside={
        <>
          <Segments
            label={app.photos.sort}
            value={order}
            onChange={setOrder}
            choices={[
              ['date', app.photos.sortByDate],
              ['plot', app.photos.sortByPlot],
            ]}
          />
          <Segments
            label={app.photos.view}
            value={show}
            onChange={setShow}
            choices={[
              ['pictures', app.photos.viewPictures],
              ['table', app.photos.viewTable],
            ]}
          />
          {(toLook.length > 0 || onlyLook) && (
            <Segments
              label={area.look.filter}
              value={onlyLook ? 'look' : 'all'}
              onChange={(value) => setOnlyLook(value === 'look')}
              choices={[
                ['all', area.look.all(photos.length)],
                ['look', area.look.needsLook(toLook.length)],
              ]}
            />
          )}
        </>
      }
      action={
        <>
          <FieldLink />
          <Button className={styles.camera} onClick={takePhoto}>
            <Icon name="camera" />
            {app.photos.takePhoto}
          </Button>
          <Button look="main" onClick={choose}>
            <Icon name="plus" />
            {app.photos.add}
          </Button>
        </>
      }
    >
      <OnlyHere />
      <AddingReport />
      <TroubleList photos={photos} />
      <UnmeasuredNotice photos={photos} />
      <DefinitionNotice photos={inOrder} />
      {onlyLook && toLook.length === 0 && <p>{area.look.nothing}</p>}
      {show === 'pictures' ? (
        groups.map((group) => (
          <PhotoGroupSection key={group.key ?? 'none'} group={group} order={order} selection={selection} />
        ))
      ) : (
        <PhotoTable photos={inOrder} selection={selection} />
      )}
      {selected.length > 0 && (
        <SelectionBar
          count={selected.length}
          onEdit={() => setDialog('edit')}
          onRemove={() => setDialog('remove')}
          onConfirm={unconfirmed.length > 0 ? confirm : null}
          onRetry={() => session.retry(selected.map(({ id }) => id))}
          onClear={selection.clear}
        />
      )}
      {dialog === 'edit' && <EditDialog photos={selected} onClose={() => setDialog(null)} />}
      {dialog === 'remove' && (
        <RemoveDialog
          photos={selected}
          onClose={() => setDialog(null)}
          onRemoved={(count) => setSaid(app.removing.done(count))}
        />
      )}
      <p className="visually-hidden" role="status">
        {said}
      </p>
    </Page>
  );
}
