import { readFile } from 'node:fs/promises';
import { z } from 'zod';
import { insideFolder, saveTexts } from '../../files/index.ts';
import { mayWrite } from '../may-write.ts';
import type { Room } from '../room.ts';
import { refusal, route } from '../route.ts';

const wanted = z.strictObject({
  changes: z
    .array(z.strictObject({ file: z.string().max(300), was: z.string().nullable(), text: z.string() }))
    .min(1)
    .max(20),
});

/** Of RFC 9110, and of RFC 4918 for a disk that takes no more. */
const STATUS = { outside: 403, changed: 409, busy: 503, disk: 507 } as const;

/**
 * Writes content files, all or none. One that no longer says what the page had read is not written over: the answer
 * is 409 with what every file says now, to be merged.
 */
export default route({
  method: 'POST',
  path: 'api/save/',
  async handle({ body }, room) {
    const read = wanted.safeParse(body);
    if (!read.success) return refusal(400, 'the request is not understood', 'load the page again');
    for (const { file } of read.data.changes) {
      if (!mayWrite(file) && !(await isCaptionFile(file, room)))
        return refusal(
          403,
          `${file} is no recording, lesson, list of questions or caption file of a recording`,
          'only those are written here',
        );
      const inside = insideFolder(room.content, file);
      if (!inside.ok) return refusal(403, inside.problem, 'only files of the content folder itself are written');
    }
    const changes = read.data.changes.map(({ was, ...change }) => ({ ...change, was: was ?? undefined }));
    const saved = await saveTexts(room.content, changes);
    if (saved.ok) return { json: { saved: saved.files } };
    const now: Record<string, string | null> = {};
    for (const { file } of changes) {
      const text = await textNow(`${room.content}/${file}`);
      if (text !== undefined) now[file] = text;
    }
    return refusal(STATUS[saved.reason], saved.problem, saved.help, { now });
  },
});

/** True for WebVTT captions that a recording names. */
async function isCaptionFile(file: string, room: Room): Promise<boolean> {
  if (!/\.vtt$/i.test(file)) return false;
  if (room.captionFiles.has(file)) return true;
  const { shop } = await room.load();
  for (const { captions } of shop.recordings) if (captions) room.captionFiles.add(captions.file);
  return room.captionFiles.has(file);
}

/** What a file says; null where it is gone, nothing where it cannot be read. */
async function textNow(path: string): Promise<string | null | undefined> {
  return readFile(path, 'utf8').catch((error: NodeJS.ErrnoException) => (error.code === 'ENOENT' ? null : undefined));
}
