import type { StoredDeclaration } from '../core/exchange/declaredAnalysis.ts';
import type { DeclarationRecord } from './records/reviewRecords.ts';
import type { Written } from './storageProblem.ts';
import type { StoreContext } from './storeContext.ts';

/** What comparisons were declared to look at. A declaration is never changed or removed: a later one amends it, with a reason. */
export class DeclarationStore {
  readonly #context: StoreContext;

  constructor(context: StoreContext) {
    this.#context = context;
  }

  /** The declarations of a trial, the first one first. */
  async all(trialId: string): Promise<readonly DeclarationRecord[]> {
    const found = await this.#context.read(['declarations'], (tables) =>
      tables.declarations.where('trialId', trialId),
    );
    return inOrder(found);
  }

  /**
   * Keeps a declaration, as the first one or as an amendment of the newest, with its audit entry.
   *
   * @param amends the newest declaration as the person saw it; null for none
   * @param reason why it is amended; not blank for an amendment
   * @returns false where another one was declared meanwhile, or the trial is gone: nothing was kept
   * @throws RangeError for an amendment without a reason
   */
  declare(
    trialId: string,
    declaration: StoredDeclaration,
    by: string,
    amends: string | null,
    reason: string | null,
  ): Promise<Written<boolean>> {
    if (amends !== null && (reason ?? '').trim() === '') {
      throw new RangeError('an amendment needs a reason, got none');
    }
    return this.#context.write(
      ['trials', 'declarations', 'auditEntries'],
      async ({ trials, declarations, auditEntries }) => {
        if (!(await trials.get(trialId))) return false;
        const newest = inOrder(await declarations.where('trialId', trialId)).at(-1) ?? null;
        if ((newest?.id ?? null) !== amends) return false;
        const id = this.#context.newId();
        const at = this.#context.now();
        await declarations.put({ id, trialId, declaration, by, at, amends, reason });
        await auditEntries.put({
          id: this.#context.newId(),
          subject: 'declarations',
          subjectId: trialId,
          field: 'declared analysis',
          before: newest?.declaration ?? null,
          after: declaration,
          by,
          at,
          reason,
        });
        return true;
      },
      (kept) => ({ trialIds: kept ? [trialId] : [] }),
    );
  }
}

/** Each after the one it amends: clocks of two devices need not agree. */
function inOrder(declarations: readonly DeclarationRecord[]): DeclarationRecord[] {
  const byAmended = new Map(declarations.map((one) => [one.amends, one]));
  const ordered: DeclarationRecord[] = [];
  for (let next = byAmended.get(null); next && !ordered.includes(next); next = byAmended.get(next.id)) {
    ordered.push(next);
  }
  return ordered;
}
