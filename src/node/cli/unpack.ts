import { resolve } from 'node:path';
import type { Compared } from '../../core/pack/index.ts';
import { plural } from '../../core/read/index.ts';
import { checkPackage, openPackage, PackageRefused, prepareUnpacking, unpack } from '../pack/index.ts';
import { ByteProgress } from './byte-progress.ts';
import { choiceOf, holdNames, planLines } from './choices.ts';
import { command, EXIT } from './command.ts';

export default command({
  name: 'unpack',
  summary:
    'the content of a package into this shop, by plan: lessons, values with sources, kit, words, captions, footage',
  args: ['<file|folder>'],
  options: [
    {
      name: 'take',
      value: 'NAME',
      many: true,
      help: 'where it differs, take the package’s; "all" for everything that differs',
    },
    {
      name: 'keep',
      value: 'NAME',
      many: true,
      help: 'where it differs, keep this shop’s; "all" for everything else that differs',
    },
    { name: 'dry-run', help: 'show the plan, write nothing' },
    { name: 'json', help: 'one JSON document about the plan and what was written' },
  ],

  async run([path = ''], flags, context) {
    const { content, cwd, signal, say, out } = context;
    try {
      const files = await openPackage(resolve(cwd, path));
      try {
        const total = [...files.sizes.values()].reduce((sum, bytes) => sum + bytes, 0);
        const progress = new ByteProgress(context, 'comparing', total);
        const state = await checkPackage(files, signal, (bytes) => progress.add(bytes));
        if (!state.manifest)
          throw new PackageRefused('package.json is not as it was packed', 'take the package afresh');
        const { plan, left } = await prepareUnpacking(files, state, content, choiceOf(flags));
        holdNames(flags, plan.compared, 'nothing was unpacked');
        say(`${state.manifest.kind} “${state.manifest.title}” of ${state.manifest.shop}`);
        for (const line of planLines(plan.compared, choiceOf(flags), 'in package')) say(line);
        for (const file of left) say(`no content, left in the package: ${file}`);
        if (!state.whole) say('the pages of the package are not whole; its content is');
        const writes = !flags.has('dry-run') && plan.undecided.length === 0;
        const written = writes ? await unpack(files, state, content, plan, signal) : [];
        if (flags.has('json')) {
          const named = (wanted: Compared['state']) =>
            plan.compared.filter(({ state }) => state === wanted).map(({ name }) => name);
          out(
            JSON.stringify(
              { new: named('new'), same: named('same'), differs: named('differs'), undecided: plan.undecided, written },
              null,
              2,
            ),
          );
        }
        if (plan.undecided.length > 0) {
          say(
            `nothing was unpacked: ${plural(plan.undecided.length, 'thing')} that ${plan.undecided.length === 1 ? 'differs is' : 'differ are'} not decided yet\n--take NAME takes the package’s, --keep NAME keeps this shop’s; --keep all and --take all decide the rest. Compare values with their sources first`,
          );
          return EXIT.contentHasErrors;
        }
        if (flags.has('dry-run')) say('nothing was written');
        else if (written.length === 0) say('nothing changes');
        else say(`wrote ${plural(written.length, 'file')} into ${content}; liftside check says what is left to do`);
        return EXIT.fine;
      } finally {
        await files.close();
      }
    } catch (error) {
      if (!(error instanceof PackageRefused)) throw error;
      say(`${error.message}\n${error.help}`);
      return EXIT.contentHasErrors;
    }
  },
});
