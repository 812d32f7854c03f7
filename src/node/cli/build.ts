import { relative, resolve } from 'node:path';
import { setFlagsFromString } from 'node:v8';
import { plural } from '../../core/read/index.ts';
import { checkFolder } from '../check/index.ts';
import { command, EXIT, folderThere, OutsideFailure } from './command.ts';

export default command({
  name: 'build',
  summary: 'the static site, from the content',
  args: [],
  options: [
    {
      name: 'to',
      value: 'DIR',
      help: 'a new or empty folder, or one that a build has made; dist/ where you are when left out',
    },
    {
      name: 'footage',
      value: 'rendered|uncut',
      help: 'what the site plays: finished programmes only (when left out), or also camera files whole, with what is cut',
    },
    { name: 'base', value: 'PATH', help: 'the path it will be served under, such as /garage/' },
    { name: 'serve', help: 'then serve it on this machine until Ctrl-C' },
    { name: 'port', value: 'N', help: 'for --serve; a free one when left out' },
  ],

  async run(_, flags, { content, cwd, home, env, now, load, signal, say, out }) {
    // Of a thousand lessons it would hold two gigabytes more that nobody needs before it cleared any away, and not be quicker.
    setFlagsFromString('--heap-growing-percent=60');
    // Asked for only here: the site builder takes longer to start than most commands to finish.
    const { buildSite, ContentErrors, serveSite } = await import('../site/index.ts');
    const to = resolve(cwd, flags.text('to') ?? 'dist');
    const base = basePath(flags.text('base') ?? env.LIFTSIDE_BASE ?? '/');
    const port = portNumber(flags.text('port'));
    const footage = footageChoice(flags.text('footage') ?? 'rendered');
    try {
      const check = async (today: string) => {
        await folderThere(content);
        return checkFolder(content, today, true);
      };
      const options = { content, base, footage, out: to, home, now, load, check, signal, env };
      const { lessons, steps, classes, unrendered, withoutStills } = await buildSite(options);
      const taught = `${plural(lessons, 'lesson')} with ${plural(steps, 'step')}`;
      say(`built ${taught} and ${plural(classes, 'class', 'classes')} into ${relative(cwd, to) || '.'}`);
      for (const note of unrenderedNotes(unrendered, footage)) say(note);
      if (withoutStills) say(`steps have no pictures: ${withoutStills.message}; ${withoutStills.help}`);
    } catch (error) {
      if (!(error instanceof ContentErrors)) throw error;
      say(error.message);
      return EXIT.contentHasErrors;
    }
    if (flags.has('serve')) {
      const served = await serveSite({ dir: to, base, port });
      out(served.address);
      await new Promise((stop) => signal.addEventListener('abort', stop, { once: true }));
      await served.close();
    }
    return EXIT.fine;
  },
});

type FootageChoice = 'rendered' | 'uncut';

/** @throws OutsideFailure when it is neither */
function footageChoice(text: string): FootageChoice {
  if (text === 'rendered' || text === 'uncut') return text;
  throw new OutsideFailure(
    `--footage is rendered or uncut, not "${text}"`,
    'leave it out for finished programmes only',
    true,
  );
}

/** Of many only the first are named. */
const NAMED = 10;

function unrenderedNotes(ids: readonly string[], footage: FootageChoice): readonly string[] {
  const others = ids.length - NAMED;
  const notes = ids.slice(0, NAMED).map((id) => unrenderedNote(id, footage));
  return others > 0
    ? [...notes, `and ${plural(others, 'recording')} more that ${others === 1 ? 'is' : 'are'} not rendered`]
    : notes;
}

function unrenderedNote(id: string, footage: FootageChoice): string {
  return footage === 'uncut'
    ? `${id} is not rendered: its camera files are in the site whole, with all that the edit list cuts out`
    : `${id} is not rendered, so its film is left out: liftside render ${id}, or build --footage uncut to publish the camera files whole`;
}

/** With a slash at both ends. */
export function basePath(text: string): string {
  return `/${text.replace(/^\/+|\/+$/g, '')}/`.replace('//', '/');
}

/** @throws OutsideFailure when it is no port */
export function portNumber(text: string | undefined): number {
  const port = Number(text ?? 0);
  if (Number.isInteger(port) && port >= 0 && port <= 65_535) return port;
  throw new OutsideFailure(`"${text}" is not a port`, 'a port is a whole number from 1 to 65535', true);
}
