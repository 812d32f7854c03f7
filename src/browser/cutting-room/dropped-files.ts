/** Films, sounds and captions, by their endings. */
const FOOTAGE = /\.(mp4|m4v|mov|mkv|webm|mts|m2ts|avi|wav|mp3|m4a|aac|flac|ogg|opus|vtt|srt)$/i;

/** Of chosen files those that are footage. */
export function chosenFiles(files: Iterable<File> | null): File[] {
  return [...(files ?? [])].filter(({ name }) => FOOTAGE.test(name) && !name.startsWith('.'));
}

/** Of what was dropped, folders and all that is in them, the files that are footage. */
export async function droppedFiles({ items, files }: DataTransfer): Promise<File[]> {
  const entries = [...items].flatMap((item) => item.webkitGetAsEntry() ?? []);
  if (entries.length === 0) return chosenFiles(files);
  const within = await Promise.all(entries.map(filesIn));
  return chosenFiles(within.flat());
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
