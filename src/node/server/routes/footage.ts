import { createHash } from 'node:crypto';
import { createWriteStream } from 'node:fs';
import { mkdir, rename, rm, stat, utimes } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { pipeline } from 'node:stream/promises';
import { z } from 'zod';
import { isFootage, takeText } from '../../../core/media/index.ts';
import { idSchema } from '../../../core/model/index.ts';
import { insideFolder, saveText } from '../../files/index.ts';
import { sumOf } from '../../media/copy-verified.ts';
import { findTake } from '../../media/take-files.ts';
import type { Room } from '../room.ts';
import { refusal, route } from '../route.ts';

/** Names of files longer than that, bytes, some disks do not take, with what is put before and after them. */
const LONGEST_NAME = 200;
const recordingId = idSchema.max(LONGEST_NAME);
const LOAD_AGAIN = 'load the page again';
const wanted = z.strictObject({
  id: recordingId,
  title: z.string().trim().min(1).max(200),
  files: z.array(z.string().max(300)).min(1).max(200),
});

/** Where a file of a recording goes, or why not. */
function placeOf(room: Room, id: string, name: string) {
  if (!recordingId.safeParse(id).success) return { problem: `"${id}" cannot be the id of a recording` };
  // Files of one name off two cards lie in a folder each.
  const parts = name.split('/');
  if (parts.length > 2 || parts.some((part) => part === '' || part.startsWith('.') || part.includes('\\')))
    return { problem: `"${name}" is no name of a file` };
  if (Buffer.byteLength(name) > LONGEST_NAME) return { problem: `${name.slice(0, 40)}… is too long a name` };
  if (!isFootage(name)) return { problem: `${name} is no film, sound or caption file` };
  const file = `media/${id}/${name}`;
  const inside = insideFolder(room.content, file);
  return inside.ok ? { file, path: inside.path } : { problem: inside.problem };
}

/**
 * Takes a file that was chosen or dropped on the page into the content folder, whole or not at all. The same file twice
 * is taken once; another one of that name is refused.
 */
export const takeFile = route({
  method: 'POST',
  path: 'api/footage/file/',
  raw: true,
  async handle({ url, request, response }, room) {
    const place = placeOf(room, url.searchParams.get('id') ?? '', url.searchParams.get('name') ?? '');
    if (!('path' in place)) return refusal(403, place.problem, 'choose files that a camera or recorder wrote');
    const { file, path } = place;
    const part = join(dirname(path), `.${basename(path)}.part`);
    await mkdir(dirname(path), { recursive: true });
    const hash = createHash('sha256');
    try {
      // A link of that name, which a stranger's folder may hold, is taken away and not written through.
      await rm(part, { force: true });
      request.on('data', (chunk: Buffer) => hash.update(chunk));
      await pipeline(request, createWriteStream(part, { flags: 'wx' }));
    } catch (error) {
      await rm(part, { force: true });
      if (response.destroyed || request.destroyed) return undefined;
      const words = error instanceof Error ? error.message : String(error);
      return refusal(507, `${basename(path)} could not be written: ${words}`, 'free some space, then take it in again');
    }
    const told = Number(request.headers['content-length'] ?? Number.NaN);
    if ((await stat(part)).size !== told) {
      await rm(part, { force: true });
      return refusal(400, `${basename(path)} did not come whole`, 'take it in again');
    }
    if (await stat(path).catch(() => undefined)) {
      const same = (await sumOf(path, () => {})) === hash.digest('hex');
      await rm(part, { force: true });
      if (same) return { json: { file } };
      return refusal(409, `${file} is there already, and is another file`, 'give the recording another name');
    }
    const modified = Number(url.searchParams.get('modified'));
    // The time of day tells which file was shot first.
    if (Number.isFinite(modified) && modified > 0) await utimes(part, new Date(), new Date(modified));
    await rename(part, path);
    return { json: { file } };
  },
});

/** What recording some files of the content folder make: order, rate, start, further cameras. */
export const plannedTake = route({
  method: 'GET',
  path: 'api/footage/plan/',
  async handle({ url }, room) {
    const files = url.searchParams.getAll('file').slice(0, 200);
    return { json: await findTake(room.content, files) };
  },
});

/** Writes the file of a new recording. */
export const writeTake = route({
  method: 'POST',
  path: 'api/footage/',
  async handle({ body }, room) {
    const read = wanted.safeParse(body);
    if (!read.success) return refusal(400, 'id, title or files are missing', LOAD_AGAIN);
    const { id, title, files } = read.data;
    const { plan, captions } = await findTake(room.content, files);
    if (!plan)
      return refusal(422, 'none of these files has a picture that can be read', 'take in the files of a camera');
    const text = takeText(title, plan, captions);
    if (!text.ok) return refusal(422, text.problem, text.help);
    const saved = await saveText(room.content, { file: `recordings/${id}.yaml`, was: undefined, text: text.value });
    if (saved.ok) return { json: { recording: id, angles: plan.angles.length } };
    if (saved.reason === 'changed') return refusal(409, `there is a recording "${id}" already`, 'give it another name');
    return refusal(507, saved.problem, saved.help);
  },
});
