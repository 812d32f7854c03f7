import { listWords } from '../../core/read/index.ts';
import { PackageRefused } from '../pack/index.ts';
import { describeCollections, verifyCollections } from './collections-kept.ts';
import { publishCollection, showKey } from './collections-published.ts';
import { updateCollections } from './collections-update.ts';
import { type Context, command, EXIT, type ExitCode, type Flags } from './command.ts';

type Action = (names: readonly string[], flags: Flags, context: Context) => Promise<ExitCode>;

const ACTIONS: Readonly<Record<string, Action>> = {
  update: updateCollections,
  list: describeCollections,
  verify: verifyCollections,
  publish: publishCollection,
  key: showKey,
};

export default command({
  name: 'collections',
  summary:
    'what shops share: update fetches and merges, list and verify show what is kept, publish signs, key makes a key',
  args: ['<update|list|verify|publish|key>', '[name]'],
  options: [
    {
      name: 'take',
      value: 'NAME',
      many: true,
      help: 'update: take the publisher’s; "all" for everything that is open',
    },
    { name: 'keep', value: 'NAME', many: true, help: 'update: keep what is here; "all" for everything else' },
    { name: 'by', value: 'ROLE', help: 'update: role of who has compared the values that are taken with their source' },
    { name: 'dry-run', help: 'update: fetch and show the plan, change nothing of the content' },
    { name: 'release', value: 'VERSION', help: 'publish: the new version, such as 1.2.0' },
    { name: 'notes', value: 'TEXT', help: 'publish: what changed' },
    { name: 'key', value: 'FILE', help: 'publish: the key to sign with; key: the file to make, or to show' },
    { name: 'output', short: 'o', value: 'DIR', help: 'publish: the folder to make' },
    { name: 'json', help: 'update, list, verify: one JSON document' },
  ],

  async run([action = '', ...names], flags, context) {
    const run = Object.hasOwn(ACTIONS, action) ? ACTIONS[action] : undefined;
    if (!run) {
      context.say(`collections ${action}: there are ${listWords(Object.keys(ACTIONS))}`);
      return EXIT.callIsWrong;
    }
    try {
      return await run(names, flags, context);
    } catch (error) {
      if (!(error instanceof PackageRefused)) throw error;
      context.say(`${error.message}\n${error.help}`);
      return EXIT.contentHasErrors;
    }
  },
});
