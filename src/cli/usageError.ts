/** Arguments or files that cannot be used: the command ends with exit code 2 and this sentence. */
export class UsageError extends Error {
  override readonly name = 'UsageError';
}

/** The reason of an error of the file system in words, without its code and path. */
export const reasonOf = (error: unknown): string =>
  error instanceof Error ? error.message.replace(/^E[A-Z]+: /, '').replace(/, \w+ '.*$/, '') : String(error);
