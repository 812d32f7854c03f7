import { stat } from 'node:fs/promises';
import { dirname, relative, resolve } from 'node:path';
import { readLargest } from '../../core/media/index.ts';
import type { Recording } from '../../core/model/index.ts';
import { packageContents } from '../../core/pack/index.ts';
import { plural } from '../../core/read/index.ts';
import { spaceAt } from '../media/disk.ts';
import { findRendered, type RenderedFiles } from '../media/rendered.ts';
import { writeFolder, writeZip } from '../pack/index.ts';
import { chromiumFor } from '../programs/index.ts';
import { ByteProgress, byteText } from './byte-progress.ts';
import { type Context, command, EXIT, Flags, OutsideFailure } from './command.ts';
import { withDividedProgrammes } from './divided-programmes.ts';
import { stickNotes } from './stick-notes.ts';

const FORMATS = ['folder', 'zip', 'scorm12', 'cmi5', 'epub'] as const;
const ENDINGS = { folder: '-package', zip: '.zip', scorm12: '.scorm12.zip', cmi5: '.cmi5.zip', epub: '.epub' } as const;

const OPENS = {
  folder: 'open it by READ ME FIRST.html',
  zip: 'unzip it, and open it by READ ME FIRST.html',
  scorm12: 'a school’s system takes it as it is',
  cmi5: 'a school’s system takes it as it is',
  epub: 'open it with any reader of books',
} as const;

export default command({
  name: 'pack',
  summary: 'a lesson or class that works without a network: film, pages, search, papers, sources, sums',
  args: ['<lesson|class>'],
  options: [
    {
      name: 'to',
      value: 'FORMAT',
      choices: FORMATS,
      help: 'a folder, as when left out; one zip file; or a zip file that a school’s system records by: SCORM 1.2 or cmi5; or a book',
    },
    {
      name: 'output',
      short: 'o',
      value: 'PATH',
      help: 'a new file or folder, or one that holds an earlier package; ID-package, ID.zip, ID.FORMAT.zip or ID.epub where you are when left out',
    },
    {
      name: 'footage',
      value: 'rendered|uncut|none',
      choices: ['rendered', 'uncut', 'none'],
      help: 'what plays: the finished programme, as when left out (rendered first where it is not), the camera files whole with all that is cut, or nothing',
    },
    {
      name: 'largest-file',
      value: 'SIZE',
      help: 'bytes that a file may have, such as 2GB, or none; what a stick formatted as FAT32 takes (4 GiB less a byte) when left out. A programme that is larger goes into several files, divided at chapters, and plays as one',
    },
    { name: 'without-pdf', help: 'print no papers; the pages themselves can be printed' },
    { name: 'json', help: 'one JSON document about what was packed' },
  ],

  async run([id = ''], flags, context) {
    const { content, home, now, signal, load, cwd, env, say, out } = context;
    const format = FORMATS.find((one) => one === flags.text('to')) ?? 'folder';
    const school = format === 'scorm12' || format === 'cmi5' ? format : undefined;
    const footage =
      flags.text('footage') === 'uncut' ? 'uncut' : flags.text('footage') === 'none' ? 'none' : 'rendered';
    const largest = readLargest(flags.text('largest-file'));
    if (largest === undefined) {
      say('--largest-file takes a size, such as 4GB, 700MB, 2GiB or a number of bytes, or none');
      return EXIT.callIsWrong;
    }
    const to = resolve(cwd, flags.text('output') ?? `${id}${ENDINGS[format]}`);
    const loaded = await load();
    const { shop, texts } = loaded;
    if (shop.broken.has(id)) {
      say(`"${id}" cannot be read whole; liftside check says why`);
      return EXIT.contentHasErrors;
    }
    const contents = packageContents(shop, texts.keys(), id);
    if (!contents.ok) {
      say(`${contents.problem}: ${contents.help}`);
      return EXIT.callIsWrong;
    }
    const browser =
      flags.has('without-pdf') || format === 'epub' ? undefined : await chromiumFor('papers are printed', env);
    if (footage === 'rendered')
      for (const recording of contents.value.recordings) {
        if (await findRendered(content, recording)) continue;
        const code = await renderFirst(recording.id, context);
        if (code !== EXIT.fine) return code;
      }
    const programmes = await programmesOf(content, contents.value.recordings, footage);
    // A book holds no film.
    const wishes = {
      programmes,
      contents: contents.value,
      largest: format === 'epub' ? Number.POSITIVE_INFINITY : largest,
    };
    return withDividedProgrammes(wishes, context, async (programmeOf) => {
      // Asked for only here: the site builder takes longer to start than most commands to finish.
      const { ContentErrors } = await import('../site/index.ts');
      try {
        const options = {
          ...({ content, home, now, signal, footage, programmeOf, env } as const),
          ...(browser !== undefined && { browser }),
          ...(school && { school }),
        };
        const { entries, notes } =
          format === 'epub'
            ? await (await import('../pack/assemble-book.ts')).assembleBook(loaded, contents.value, options)
            : await (await import('../pack/assemble.ts')).assemblePackage(loaded, contents.value, options);
        const total = entries.reduce((sum, { bytes }) => sum + bytes, 0);
        const here = relative(cwd, to) || '.';
        say(
          `${here}: ${plural(entries.length + 1, 'file')}, ${byteText(total)}${format === 'folder' ? '' : ' before zipping'}`,
        );
        for (const note of notes) say(`note: ${note}`);
        for (const note of stickNotes(entries, format === 'folder' ? 0 : total, largest)) say(`note: ${note}`);
        await holdSpace(dirname(to), total);
        const progress = new ByteProgress(context, 'packing', total);
        const write = format === 'folder' ? writeFolder : writeZip;
        const writing = { to, content, signal, wrote: (written: number) => progress.add(written) };
        const files = await write(entries, { ...writing, ...(school && { pressAll: true }) });
        const bytes = format === 'folder' ? files.reduce((sum, file) => sum + file.bytes, 0) : (await stat(to)).size;
        say(`packed ${here}, ${byteText(bytes)}; ${OPENS[format]}`);
        if (flags.has('json')) out(JSON.stringify({ path: to, format, bytes, files }, null, 2));
        return EXIT.fine;
      } catch (error) {
        if (!(error instanceof ContentErrors)) throw error;
        say(error.message.replace('the site is not built', 'nothing is packed'));
        return EXIT.contentHasErrors;
      }
    });
  },
});

/** What the package plays is made first, as `render` makes it. */
async function renderFirst(recording: string, context: Context) {
  context.say(`${recording} is not rendered yet, so that is done first`);
  const { default: render } = await import('./render.ts');
  return render.run([recording], new Flags(), context);
}

/** The finished programmes of recordings; none where none is to play. */
async function programmesOf(
  content: string,
  recordings: readonly Recording[],
  footage: string,
): Promise<ReadonlyMap<string, RenderedFiles>> {
  const found = new Map<string, RenderedFiles>();
  if (footage !== 'rendered') return found;
  for (const recording of recordings) {
    const rendered = await findRendered(content, recording);
    if (rendered) found.set(recording.id, rendered);
  }
  return found;
}

/** @throws OutsideFailure when the disk has not that much room */
async function holdSpace(folder: string, bytes: number): Promise<void> {
  let at = folder;
  while (!(await stat(at).catch(() => undefined)) && dirname(at) !== at) at = dirname(at);
  const free = await spaceAt(at);
  if (free >= bytes) return;
  throw new OutsideFailure(
    `the disk of ${at} has ${byteText(free)} left, and the package takes ${byteText(bytes)}`,
    'free some space on it, or name a place on another disk; nothing was written',
  );
}
