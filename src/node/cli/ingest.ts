import { readdir, stat } from 'node:fs/promises';
import { join, relative, resolve, sep } from 'node:path';
import { isFootage, takeText } from '../../core/media/index.ts';
import { plural, slug } from '../../core/read/index.ts';
import { fileInside, placeFile, saveText } from '../files/index.ts';
import { type Copied, copyVerified } from '../media/copy-verified.ts';
import { spaceAt } from '../media/disk.ts';
import { findTake } from '../media/take-files.ts';
import { ByteProgress, byteText } from './byte-progress.ts';
import { type Context, command, EXIT, OutsideFailure } from './command.ts';

/** A file on the card, and where its copy goes. */
interface CardFile {
  readonly path: string;
  /** Relative to the card. */
  readonly name: string;
  readonly bytes: number;
  /** Relative to the content folder. */
  readonly file: string;
}

export default command({
  name: 'ingest',
  summary: 'copies a camera card into the shop, reads every copy back, and writes the recording they make',
  args: ['<folder>'],
  options: [
    { name: 'into', value: 'ID', help: 'id of the new recording; its files go into media/ID' },
    { name: 'title', value: 'TITLE', help: 'of the recording; its id when left out' },
    { name: 'json', help: 'one JSON document: files with their sums, and what recording they make' },
  ],

  async run([folder = ''], flags, context) {
    const { content, cwd, say, out, signal } = context;
    const id = flags.text('into') ?? '';
    if (id === '' || slug(id) !== id) {
      say('--into takes the id of the recording: small letters, digits and single hyphens, such as "front-brake"');
      return EXIT.callIsWrong;
    }
    const card = resolve(cwd, folder);
    const { files, left } = await filesOf(card, id);
    if (files.length === 0) {
      say(`no camera file, sound or caption lies in ${folder}`);
      return EXIT.callIsWrong;
    }
    const total = files.reduce((sum, { bytes }) => sum + bytes, 0);
    await holdRoomFor(content, files);
    const progress = new ByteProgress(context, 'Copying and reading back', 2 * total);
    const copies: (CardFile & Copied)[] = [];
    for (const one of files) {
      const target = fileInside(content, one.file);
      const copied = await copyVerified(one.path, target, (n) => progress.add(n), signal);
      copies.push({ ...one, ...copied });
    }
    // As `sha256sum --check` reads it, from the content folder.
    const sums = copies.map(({ sha256, file }) => `${sha256}  ${file}\n`).join('');
    await placeFile(fileInside(content, `media/${id}/sha256sums.txt`), sums);
    const had = copies.filter(({ was }) => was).length;
    say(
      `${plural(copies.length, 'file')}, ${byteText(total)}: every copy was read back and its SHA-256 is that of the card${had > 0 ? `; ${had} were there already` : ''}`,
    );
    if (left.length > 0)
      say(`left on the card, no footage: ${left.slice(0, 8).join(', ')}${left.length > 8 ? ', …' : ''}`);
    const made = await writeRecording(id, flags.text('title') ?? id, copies, context);
    if (flags.has('json')) {
      const rows = copies.map(({ name, file, bytes, sha256 }) => ({ name, file, bytes, sha256 }));
      out(JSON.stringify({ recording: id, files: rows, left, ...made.found }, null, 2));
    }
    return made.code;
  },
});

/** Everything on a card, by what it is; hidden files and folders are those of systems. */
async function filesOf(card: string, id: string): Promise<{ files: CardFile[]; left: string[] }> {
  const entries = await readdir(card, { recursive: true, withFileTypes: true }).catch(
    (error: NodeJS.ErrnoException) => {
      throw new OutsideFailure(
        error.code === 'ENOENT' ? `there is no folder ${card}` : `${card} cannot be read`,
        'say the folder that the card is mounted on',
        true,
      );
    },
  );
  const names = entries
    .filter((entry) => entry.isFile())
    .map((entry) => relative(card, join(entry.parentPath, entry.name)))
    .filter((name) => !name.split(sep).some((part) => part.startsWith('.')))
    .toSorted();
  const files: CardFile[] = [];
  const left: string[] = [];
  for (const name of names) {
    if (!isFootage(name)) left.push(name);
    else {
      const path = join(card, name);
      files.push({ path, name, bytes: (await stat(path)).size, file: `media/${id}/${name.split(sep).join('/')}` });
    }
  }
  return { files, left };
}

/** @throws OutsideFailure before anything is copied, where it would not fit */
async function holdRoomFor(content: string, files: readonly CardFile[]): Promise<void> {
  let wanted = 0;
  for (const { file, bytes } of files)
    wanted += Math.max(0, bytes - ((await stat(join(content, file)).catch(() => undefined))?.size ?? 0));
  const room = await spaceAt(content);
  if (wanted > room)
    throw new OutsideFailure(
      `the card holds ${byteText(wanted)} more than is here, and the disk of ${content} has ${byteText(room)} left`,
      'free some space, or keep the content folder on a larger disk',
    );
}

async function writeRecording(id: string, title: string, copies: readonly CardFile[], { content, say }: Context) {
  const found = await findTake(
    content,
    copies.map(({ file }) => file),
  );
  for (const { file, problem, help } of found.unusable) say(`${file}: ${problem}; ${help}`);
  if (!found.plan) {
    say('no file with a picture can be read, so no recording is written');
    return { code: EXIT.contentHasErrors, found };
  }
  for (const note of found.plan.notes) say(note);
  const file = `recordings/${id}.yaml`;
  const text = takeText(title, found.plan, found.captions);
  if (!text.ok) throw new OutsideFailure(text.problem, text.help);
  const saved = await saveText(content, { file, was: undefined, text: text.value });
  if (saved.ok) say(`wrote ${file}`);
  else if (saved.reason === 'changed') say(`${file} is there already and stays as it is`);
  else throw new OutsideFailure(saved.problem, saved.help);
  const angles = found.plan.angles.length > 0 ? `; liftside align ${id} --write finds where the others lie` : '';
  say(`liftside analyse ${id} looks through it${angles}`);
  return { code: EXIT.fine, found };
}
