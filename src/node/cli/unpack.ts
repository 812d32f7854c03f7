import { resolve } from 'node:path';
import type { Compared } from '../../core/pack/index.ts';
import { plural } from '../../core/read/index.ts';
import { checkPackage, openPackage, PackageRefused, prepareUnpacking, unpack } from '../pack/index.ts';
import { ByteProgress } from './byte-progress.ts';
import { command, EXIT, type Flags, OutsideFailure } from './command.ts';

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
        holdNames(flags, plan.compared);
        say(`${state.manifest.kind} “${state.manifest.title}” of ${state.manifest.shop}`);
        for (const line of planLines(plan.compared, choiceOf(flags))) say(line);
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

/** What is named wins over "all". */
function choiceOf(flags: Flags): (name: string) => 'take' | 'keep' | undefined {
  const [take, keep] = [new Set(flags.texts('take')), new Set(flags.texts('keep'))];
  return (name) => {
    if (take.has(name)) return 'take';
    if (keep.has(name)) return 'keep';
    return take.has('all') ? 'take' : keep.has('all') ? 'keep' : undefined;
  };
}

/** @throws OutsideFailure when a choice names nothing that differs, or both ways at once */
function holdNames(flags: Flags, compared: readonly Compared[]): void {
  const differing = compared.filter(({ state }) => state === 'differs').map(({ name }) => name);
  const given = [...flags.texts('take'), ...flags.texts('keep')];
  const twice = given.find((name, index) => given.indexOf(name) !== index);
  if (twice !== undefined)
    throw new OutsideFailure(`"${twice}" is named twice`, 'take it or keep it; nothing was unpacked', true);
  const wrong = given.find((name) => name !== 'all' && !differing.includes(name));
  if (wrong !== undefined)
    throw new OutsideFailure(
      `nothing of the name "${wrong}" differs`,
      differing.length > 0
        ? `what differs: ${differing.join(', ')}; nothing was unpacked`
        : 'nothing differs; nothing was unpacked',
      true,
    );
}

function planLines(compared: readonly Compared[], choose: (name: string) => 'take' | 'keep' | undefined): string[] {
  const lines: string[] = [];
  const same = compared.filter(({ state }) => state === 'same').length;
  for (const { name, state } of compared) if (state === 'new') lines.push(`new: ${name}`);
  for (const { name, state, here, there } of compared) {
    if (state === 'own') lines.push(`this shop’s own, not touched: ${name}`);
    if (state !== 'differs') continue;
    const chosen = choose(name);
    const word = chosen === 'take' ? 'differs, overwritten' : chosen === 'keep' ? 'differs, kept' : 'differs';
    lines.push(`${word}: ${name}`);
    if (here || there)
      lines.push(`  here        ${here || '(nothing more)'}`, `  in package  ${there || '(nothing more)'}`);
  }
  if (same > 0) lines.push(`the same here: ${same}`);
  return lines;
}
