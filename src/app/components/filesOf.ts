/** The files of a drop, those in dropped folders included, in the order of their names within a folder. */
export async function filesOf(dropped: DataTransfer): Promise<File[]> {
  // the list is emptied when the event is over, so everything is taken out of it at once
  const entries = [...dropped.items].map((item) => item.webkitGetAsEntry());
  const loose = [...dropped.files];
  if (entries.every((entry) => entry === null)) return loose;
  const nested = await Promise.all(entries.filter((entry) => entry !== null).map(filesIn));
  return nested.flat();
}

async function filesIn(entry: FileSystemEntry): Promise<File[]> {
  if (entry.isFile) {
    return [
      await new Promise<File>((resolve, reject) => (entry as FileSystemFileEntry).file(resolve, reject)),
    ];
  }
  const reader = (entry as FileSystemDirectoryEntry).createReader();
  const entries: FileSystemEntry[] = [];
  // a folder is handed out in parts; an empty part means there is no more
  for (;;) {
    const part = await new Promise<FileSystemEntry[]>((resolve, reject) =>
      reader.readEntries(resolve, reject),
    );
    if (part.length === 0) break;
    entries.push(...part.filter(({ name }) => !name.startsWith('.')));
  }
  entries.sort((a, b) => a.name.localeCompare(b.name, 'en', { numeric: true }));
  return (await Promise.all(entries.map(filesIn))).flat();
}
