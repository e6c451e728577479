/** The database of an older version could not be brought to the present one. It is as it was before. */
export class UpgradeFailed extends Error {
  override readonly name = 'UpgradeFailed';

  constructor(from: number, to: number, cause: unknown) {
    const reason = cause instanceof Error ? cause.message : String(cause);
    super(`version ${from} to ${to}: ${reason}`, { cause });
  }
}
