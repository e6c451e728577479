/** The database was written by a newer version of the program. Nothing in it was touched. */
export class NewerDatabase extends Error {
  override readonly name = 'NewerDatabase';
  readonly storedVersion: number;
  readonly knownVersion: number;

  constructor(name: string, stored: number, known: number) {
    super(`database ${name} has version ${stored}, this program knows ${known} and older`);
    this.storedVersion = stored;
    this.knownVersion = known;
  }
}
