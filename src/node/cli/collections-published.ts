import { resolve } from 'node:path';
import { check, reportText } from '../../core/check/index.ts';
import { changesOf } from '../../core/collections/index.ts';
import { didYouMean, plural } from '../../core/read/index.ts';
import { isoDay } from '../../core/time/index.ts';
import { filesOf, fingerprintOf, makeKey, publish, readKey, versionBefore } from '../collections/index.ts';
import { type Context, EXIT, type ExitCode, type Flags, OutsideFailure } from './command.ts';

/** `collections key`: makes a key, or shows the fingerprint of one that is there. */
export async function showKey(
  _: readonly string[],
  flags: Flags,
  { cwd, content, out, say }: Context,
): Promise<ExitCode> {
  const given = flags.text('key');
  if (given === undefined) {
    say('say where the key is, or is to be: --key FILE, outside of the content folder');
    return EXIT.callIsWrong;
  }
  const file = resolve(cwd, given);
  const there = await readKey(file).catch((error: unknown) => {
    if (error instanceof OutsideFailure && error.message === `there is no ${file}`) return undefined;
    throw error;
  });
  const { x } = there ?? (await makeKey(file, content));
  if (!there)
    say(`made ${file}; anybody who has this file can sign as this shop: keep it to yourself, with a copy elsewhere`);
  say('read this out by phone to shops that want to take from you:');
  out(fingerprintOf(x));
  return EXIT.fine;
}

/** `collections publish`: a new version, signed, into a folder of its own. */
export async function publishCollection(
  [name = '']: readonly string[],
  flags: Flags,
  { load, cwd, signal, now, say, out }: Context,
): Promise<ExitCode> {
  const [version, key, output] = ['release', 'key', 'output'].map((each) => flags.text(each));
  if (version === undefined || key === undefined || output === undefined) {
    say('say which version, signed with what, and where to: --release 1.0.0 --key FILE -o DIR');
    return EXIT.callIsWrong;
  }
  const loaded = await load();
  const { publishes = [] } = loaded.shop.collections;
  const wanted = publishes.find((one) => one.name === name);
  if (!wanted) {
    const names = publishes.map((one) => one.name);
    say(`collections.yaml publishes no "${name}"; ${didYouMean(name, names, 'docs/collections.md shows how')}`);
    return EXIT.callIsWrong;
  }
  const files = await filesOf(loaded, wanted);
  const wrong = check(loaded.shop, loaded.diagnostics, { today: isoDay(now()) }).filter(
    // The film itself does not go along.
    ({ rule, severity, place }) => severity === 'error' && rule !== 'footage-missing' && files.has(place.file),
  );
  const target = resolve(cwd, output);
  const before = await versionBefore(target, signal);
  const open = changesOf(loaded.shop, before && textsOf(before.files), version);
  if (wrong.length + open.length > 0) {
    out(reportText([...wrong, ...open], loaded.texts));
    say('nothing was published: others would take over what is wrong');
    return EXIT.contentHasErrors;
  }
  const wishes = { target, version, key: await readKey(resolve(cwd, key)), notes: flags.text('notes'), signal };
  const manifest = await publish(loaded, wanted, files, before, wishes);
  say(
    `published ${name} ${version} into ${target}: ${plural(files.size, 'file')}, signed by ${fingerprintOf(manifest.key)}`,
  );
  return EXIT.fine;
}

function textsOf(files: ReadonlyMap<string, Buffer>): ReadonlyMap<string, string> {
  return new Map([...files].map(([path, bytes]) => [path, bytes.toString('utf8')]));
}
