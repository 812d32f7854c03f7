import { resolve } from 'node:path';
import { plural } from '../../core/read/index.ts';
import { checkPackage, openPackage, PackageRefused } from '../pack/index.ts';
import { ByteProgress, byteText } from './byte-progress.ts';
import { command, EXIT } from './command.ts';

const FILM = /\.(?:mp4|mov|m4v|mkv|webm|mts)$/i;

export default command({
  name: 'check-pack',
  summary: 'whether a package is whole: what of it is damaged, missing or changed, file by file',
  args: ['<file|folder>'],
  options: [{ name: 'json', help: 'one JSON document' }],

  async run([path = ''], flags, context) {
    const { cwd, signal, say, out } = context;
    const json = flags.has('json');
    try {
      const files = await openPackage(resolve(cwd, path));
      try {
        const total = [...files.sizes.values()].reduce((sum, bytes) => sum + bytes, 0);
        const progress = new ByteProgress(context, 'comparing', total);
        const state = await checkPackage(files, signal, (bytes) => progress.add(bytes));
        const { manifest, whole, damaged, changed, missing, extra } = state;
        for (const file of damaged)
          say(`damaged: ${file}${FILM.test(file) ? ' (what is whole of it still plays)' : ''}`);
        for (const file of changed) say(`changed since it was packed: ${file}`);
        for (const file of missing) say(`missing: ${file}`);
        for (const file of extra) say(`not part of it: ${file}`);
        const what = manifest ? `${manifest.kind} “${manifest.title}” of ${manifest.shop}, ` : '';
        say(
          whole
            ? `whole: ${what}${plural(files.sizes.size - extra.length, 'file')}, ${byteText(total)}`
            : `not whole: ${what}${damaged.length} damaged, ${changed.length} changed, ${missing.length} missing; the rest is as it was packed`,
        );
        if (json) out(JSON.stringify({ whole, damaged, changed, missing, extra }, null, 2));
        return whole ? EXIT.fine : EXIT.contentHasErrors;
      } finally {
        await files.close();
      }
    } catch (error) {
      if (!(error instanceof PackageRefused)) throw error;
      say(`${error.message}\n${error.help}`);
      if (json)
        out(
          JSON.stringify(
            { whole: false, refused: error.message, damaged: [], changed: [], missing: [], extra: [] },
            null,
            2,
          ),
        );
      return EXIT.contentHasErrors;
    }
  },
});
