/** Of what was dropped, the files, and those that lie in folders. */
export async function droppedFiles({ items, files }: DataTransfer): Promise<File[]> {
  const entries = [...items].flatMap((item) => item.webkitGetAsEntry() ?? []);
  if (entries.length === 0) return [...files];
  return (await Promise.all(entries.map(filesIn))).flat();
}

async function filesIn(entry: FileSystemEntry): Promise<File[]> {
  if (isFile(entry)) return [await new Promise<File>((done, failed) => entry.file(done, failed))];
  if (!isFolder(entry)) return [];
  const reader = entry.createReader();
  const found: File[] = [];
  // A reader hands out some entries at a time, and none when it has done.
  for (;;) {
    const some = await new Promise<FileSystemEntry[]>((done, failed) => reader.readEntries(done, failed));
    if (some.length === 0) return found;
    for (const one of some) found.push(...(await filesIn(one)));
  }
}

function isFile(entry: FileSystemEntry): entry is FileSystemFileEntry {
  return entry.isFile;
}
function isFolder(entry: FileSystemEntry): entry is FileSystemDirectoryEntry {
  return entry.isDirectory;
}
