import { createContext, type ReactNode, useContext, useEffect, useMemo, useSyncExternalStore } from 'react';
import { type Command, isSingleCharacter, matchesShortcut } from './command.ts';

type Scope = 'everywhere' | 'here';
interface CommandGroup {
  readonly scope: Scope;
  readonly commands: readonly Command[];
}

/** The commands of everything that is on screen now. */
class CommandRegistry {
  #groups: readonly CommandGroup[] = [];
  readonly #listeners = new Set<() => void>();

  readonly get = (): readonly CommandGroup[] => this.#groups;

  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };

  add(group: CommandGroup): () => void {
    this.#set([...this.#groups, group]);
    return () => this.#set(this.#groups.filter((other) => other !== group));
  }

  #set(groups: readonly CommandGroup[]): void {
    this.#groups = groups;
    for (const listener of this.#listeners) listener();
  }
}

const RegistryContext = createContext<CommandRegistry | null>(null);

function useRegistry(): CommandRegistry {
  const registry = useContext(RegistryContext);
  if (!registry) throw new TypeError('commands need a CommandProvider above them');
  return registry;
}

/** Whether keys belong to what has the focus rather than to the commands. */
function isTyping(target: EventTarget | null): boolean {
  if (!(target instanceof HTMLElement)) return false;
  if (target.isContentEditable || target.closest('dialog')) return true;
  return target.matches(
    'select, textarea, input:not([type=checkbox], [type=radio], [type=button], [type=file])',
  );
}

/** Listens to the keyboard for the commands that are on screen. `singleKeys` off: keys with Control and named keys only. */
export function CommandProvider({ singleKeys, children }: { singleKeys: boolean; children: ReactNode }) {
  const registry = useMemo(() => new CommandRegistry(), []);
  useEffect(() => {
    let held: { readonly key: string; readonly command: Command } | null = null;
    const onKeyDown = (event: KeyboardEvent) => {
      if (event.defaultPrevented || isTyping(event.target)) return;
      // the newest screen is asked first
      for (const { commands } of registry.get().toReversed()) {
        for (const command of commands) {
          const { shortcut } = command;
          if (!shortcut || !matchesShortcut(shortcut, event)) continue;
          if ((isSingleCharacter(shortcut) && !singleKeys) || !command.isEnabled()) continue;
          event.preventDefault();
          if (event.repeat && (command.once || command.release)) return;
          if (command.release) {
            held = { key: event.key.toLowerCase(), command };
          }
          command.run();
          return;
        }
      }
    };
    const letGo = () => {
      held?.command.release?.();
      held = null;
    };
    const onKeyUp = (event: KeyboardEvent) => {
      if (event.key.toLowerCase() === held?.key) letGo();
    };
    document.addEventListener('keydown', onKeyDown);
    document.addEventListener('keyup', onKeyUp);
    window.addEventListener('blur', letGo);
    return () => {
      document.removeEventListener('keydown', onKeyDown);
      document.removeEventListener('keyup', onKeyUp);
      window.removeEventListener('blur', letGo);
    };
  }, [registry, singleKeys]);
  return <RegistryContext value={registry}>{children}</RegistryContext>;
}

/** Offers commands to the keyboard and the help sheet for as long as the caller is on screen. */
export function useCommands(commands: readonly Command[], scope: Scope = 'here'): void {
  const registry = useRegistry();
  useEffect(() => registry.add({ scope, commands }), [registry, scope, commands]);
}

/** The commands that are on screen now, for the help sheet. */
export function useCommandGroups(): readonly CommandGroup[] {
  const registry = useRegistry();
  return useSyncExternalStore(registry.subscribe, registry.get);
}
