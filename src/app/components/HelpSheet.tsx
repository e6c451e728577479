import { app } from '../../core/text/app.ts';
import { offlineText } from '../../core/text/offline.ts';
import type { UnitSystem } from '../../core/text/units.ts';
import { type Command, isSingleCharacter } from '../commands/command.ts';
import { useCommandGroups } from '../commands/registry.tsx';
import { shortcutText } from '../commands/shortcutText.ts';
import { isLanguageChoice, LANGUAGE_CHOICES, LANGUAGES, type LanguageChoice } from '../language.ts';
import { useObservable, useSession } from '../session/useSession.tsx';
import { isUnitSystem, UNIT_SYSTEMS, usualUnitSystem } from '../unitSystem.ts';
import { Dialog } from './Dialog.tsx';
import styles from './HelpSheet.module.css';
import { OfflineWords } from './OfflineWords.tsx';
import { usePreference } from './usePreference.ts';
import { THEMES, type Theme } from './useTheme.ts';

interface HelpSheetProps {
  readonly onClose: () => void;
  readonly theme: Theme;
  readonly onTheme: (theme: Theme) => void;
  readonly singleKeys: boolean;
  readonly onSingleKeys: (on: boolean) => void;
}

/** Every key of the present screen, from the commands themselves, and the settings of this device. */
export function HelpSheet({ onClose, theme, onTheme, singleKeys, onSingleKeys }: HelpSheetProps) {
  const groups = useCommandGroups();
  const commandsOf = (scope: 'here' | 'everywhere') =>
    groups.filter((group) => group.scope === scope).flatMap(({ commands }) => commands);
  return (
    <Dialog title={app.help.title} onClose={onClose}>
      <KeyTable title={app.help.here} commands={commandsOf('here')} singleKeys={singleKeys} />
      <KeyTable title={app.help.everywhere} commands={commandsOf('everywhere')} singleKeys={singleKeys} />
      <p className={styles.hint}>{app.help.photoKeys}</p>
      <label className={styles.choice}>
        <input
          type="checkbox"
          checked={singleKeys}
          onChange={(event) => onSingleKeys(event.target.checked)}
        />
        <span>
          {app.help.singleKeys}
          <span className={styles.hint}>{app.help.singleKeysHint}</span>
        </span>
      </label>
      <fieldset className={styles.themes}>
        <legend>{app.theme.label}</legend>
        {THEMES.map((one) => (
          <label key={one}>
            <input type="radio" name="theme" checked={theme === one} onChange={() => onTheme(one)} />
            {app.theme[one]}
          </label>
        ))}
      </fieldset>
      <LanguageChoices />
      <UnitChoices />
      <StorageWords />
      <section>
        <h3>{offlineText.title}</h3>
        <OfflineWords className={styles.hint} />
        <p className={styles.hint}>{offlineText.install}</p>
      </section>
      <p className={styles.hint}>
        <a href="./licences.txt" target="_blank" rel="noreferrer">
          {app.help.licences}
        </a>
      </p>
      <p className={styles.caution}>{app.help.caution}</p>
    </Dialog>
  );
}

/** The words are taken when the page begins, so another language begins it again. Nothing is unsaved by then. */
function LanguageChoices() {
  const [choice, onChoice] = usePreference<LanguageChoice>('language', 'system', isLanguageChoice);
  const choose = (next: LanguageChoice) => {
    onChoice(next);
    location.reload();
  };
  return (
    <fieldset className={styles.themes}>
      <legend>{app.language.label}</legend>
      {LANGUAGE_CHOICES.map((one) => (
        <label key={one}>
          <input type="radio" name="language" checked={choice === one} onChange={() => choose(one)} />
          {one === 'system' ? app.language.system : <span lang={one}>{LANGUAGES[one].name}</span>}
        </label>
      ))}
    </fieldset>
  );
}

/** Units are taken when the page begins, too. */
function UnitChoices() {
  const [system, onSystem] = usePreference<UnitSystem>('units', usualUnitSystem(), isUnitSystem);
  const choose = (next: UnitSystem) => {
    onSystem(next);
    location.reload();
  };
  return (
    <fieldset className={styles.themes} aria-describedby="units-hint">
      <legend>{app.units.label}</legend>
      {UNIT_SYSTEMS.map((one) => (
        <label key={one}>
          <input type="radio" name="units" checked={system === one} onChange={() => choose(one)} />
          {app.units[one]}
        </label>
      ))}
      <span id="units-hint" className={styles.hint}>
        {app.units.hint}
      </span>
    </fieldset>
  );
}

/** Whether the photos are safe from the browser's own clearing up. */
function StorageWords() {
  const storage = useObservable(useSession().storageState);
  if (storage.state !== 'ready') return null;
  return (
    <section>
      <h3>{app.storage.title}</h3>
      <p className={styles.hint}>{storage.persisted ? app.storage.persisted : app.storage.notPersisted}</p>
    </section>
  );
}

interface KeyTableProps {
  readonly title: string;
  readonly commands: readonly Command[];
  readonly singleKeys: boolean;
}

function KeyTable({ title, commands, singleKeys }: KeyTableProps) {
  const withKeys = commands.filter(
    ({ shortcut }) => shortcut && (singleKeys || !isSingleCharacter(shortcut)),
  );
  if (withKeys.length === 0) return null;
  return (
    <table className={styles.keys}>
      <caption>{title}</caption>
      <thead className="visually-hidden">
        <tr>
          <th scope="col">{app.help.action}</th>
          <th scope="col">{app.help.key}</th>
        </tr>
      </thead>
      <tbody>
        {withKeys.map(({ id, label, shortcut }) => (
          <tr key={id}>
            <td>{label}</td>
            <td>
              <kbd>{shortcutText(shortcut!)}</kbd>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
