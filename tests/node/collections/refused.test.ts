import { execFileSync } from 'node:child_process';
import { hash } from 'node:crypto';
import { existsSync, readdirSync, symlinkSync } from 'node:fs';
import { cp, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { manifestYaml } from '../../../src/core/collections/index.ts';
import { readKey, signManifest } from '../../../src/node/collections/keys.ts';
import { CRITICAL, sharedOnce, TABLE, type TwoShops, twoShops } from './two-shops.ts';

/** Everything of the second shop's content, to see that nothing changed. */
function contentOf({ cwd, read }: TwoShops) {
  const names = readdirSync(join(cwd, 'takes'), { recursive: true, withFileTypes: true });
  return names
    .filter((entry) => entry.isFile() && !entry.parentPath.includes('.liftside'))
    .map((entry) => join(entry.parentPath, entry.name).slice(cwd.length + 1))
    .map((path) => [path, read(path)]);
}

/** A collection with these files, signed by the publisher's own key: what a dishonest publisher could make. */
async function forge(
  shops: TwoShops,
  files: readonly { path: string; text: string; bytes?: number; sha256?: string }[],
  change: Readonly<Record<string, unknown>> = {},
) {
  const key = await readKey(join(shops.cwd, 'weir.pem'));
  const listed = files.map(({ path, text, bytes = Buffer.byteLength(text), sha256 = hash('sha256', text) }) => ({
    ...{ path, bytes, sha256 },
  }));
  const manifest = signManifest(
    {
      format: 'liftside-collection' as const,
      ...{ name: 'tarn-values', version: '9.0.0', title: 'Values' },
      ...{ publisher: 'Weir Bank Workshop', licence: 'CC-BY-4.0', files: listed },
      ...change,
    },
    key,
  );
  shops.write('shelf/collection.yaml', manifestYaml(manifest));
  for (const { path, text } of files)
    if (!path.includes('..') && !path.startsWith('/')) shops.write(`shelf/${path}`, text);
}

/** One pair of shops for all that is refused, since nothing of them may change. */
let shared: { readonly shops: TwoShops; readonly before: unknown };
beforeAll(async () => {
  const shops = twoShops(CRITICAL, false);
  await sharedOnce(shops);
  await cp(join(shops.cwd, 'shelf'), join(shops.cwd, 'whole'), { recursive: true });
  shared = { shops, before: contentOf(shops) };
});
afterAll(() => rm(shared.shops.cwd, { recursive: true }));

const words = { path: 'words.yaml', text: 'words: []\n' };

test.each<[string, (shops: TwoShops) => unknown, RegExp]>([
  [
    'a file changed after signing',
    ({ change }) => change(`shelf/${TABLE}`, '98', '89'),
    /specs\/tarn-420\.yaml is not what was signed/,
  ],
  [
    'a longer file',
    ({ write, read }) => write(`shelf/${TABLE}`, `${read(`shelf/${TABLE}`)}\n`),
    /is not what was signed/,
  ],
  ['a changed list', ({ change }) => change('shelf/collection.yaml', '1.0.0', '1.0.1'), /its signature does not hold/],
  [
    'another publisher’s name',
    ({ change }) => change('shelf/collection.yaml', 'Weir Bank', 'Millrace'),
    /its signature does not hold/,
  ],
  [
    'a link',
    ({ cwd }) => symlinkSync('/etc/hostname', join(cwd, 'shelf/words.yaml')),
    /words\.yaml is not opened: it is a link/,
  ],
  [
    'a name that leads out',
    (shops) => forge(shops, [{ path: '../../out.yaml', text: 'x' }]),
    /"\.\.\/\.\.\/out\.yaml": \.\. leads out/,
  ],
  ['an absolute name', (shops) => forge(shops, [{ path: '/etc/x.yaml', text: 'x' }]), /root of a disk/],
  [
    'a hidden name',
    (shops) => forge(shops, [{ path: '.liftside/phones.json', text: 'x' }]),
    /begins with a dot is hidden/,
  ],
  ['a program', (shops) => forge(shops, [{ path: 'run.js', text: 'x' }]), /run\.js: no collection holds such a file/],
  [
    'whom to trust',
    (shops) => forge(shops, [{ path: 'collections.yaml', text: 'x' }]),
    /no collection holds such a file/,
  ],
  [
    'the shop’s own name',
    (shops) => forge(shops, [{ path: 'shop.yaml', text: 'x' }]),
    /no collection holds such a file/,
  ],
  [
    'a huge file',
    (shops) => forge(shops, [{ ...words, bytes: 16_000_001 }]),
    /more than the 16000000 that a file may have/,
  ],
  [
    'many large files',
    (shops) =>
      forge(
        shops,
        'abcde'.split('').map((at) => ({ path: `specs/${at}.yaml`, text: at, bytes: 15_000_000 })),
      ),
    /more than the 64000000/,
  ],
  [
    'two names that are one',
    (shops) =>
      forge(shops, [
        { path: 'specs/a.yaml', text: '' },
        { path: 'specs/A.yaml', text: '' },
      ]),
    /the same name as/,
  ],
  [
    'a file that is missing',
    async (shops) => {
      await forge(shops, [words]);
      execFileSync('rm', [join(shops.cwd, 'shelf/words.yaml')]);
    },
    /words\.yaml is missing/,
  ],
  ['another collection', (shops) => forge(shops, [words], { name: 'other-values' }), /calls itself other-values/],
  ['an older version', (shops) => forge(shops, [words], { version: '0.9.0' }), /0\.9\.0 is older than 1\.0\.0/],
  [
    'another content under one version',
    (shops) => forge(shops, [words], { version: '1.0.0' }),
    /not what was taken under that version/,
  ],
  [
    'keys that nobody knows',
    ({ write, read }) => write('shelf/collection.yaml', `${read('shelf/collection.yaml')}run: x\n`),
    /"run" is not a key of a collection/,
  ],
  ['no YAML', ({ write }) => write('shelf/collection.yaml', '{[}'), /collection\.yaml:1/],
  [
    'a manifest without end',
    ({ write }) => write('shelf/collection.yaml', '#'.repeat(1_000_001)),
    /more than 1000000 bytes/,
  ],
])('%s is refused by name, and nothing of the shop changes', async (_, harm, says) => {
  const { shops, before } = shared;
  await rm(join(shops.cwd, 'shelf'), { recursive: true });
  await cp(join(shops.cwd, 'whole'), join(shops.cwd, 'shelf'), { recursive: true });
  await harm(shops);
  const { code, said } = await shops.update();
  expect([code, said]).toEqual([1, expect.stringMatching(says)]);
  expect(said).toContain('1.0.0 stays in use');
  expect(contentOf(shops)).toEqual(before);
  expect(existsSync(join(shops.cwd, 'out.yaml'))).toBe(false);
});

test('a changed signer is refused, known or not, until somebody has compared the new key', async () => {
  for (const known of [true, false]) {
    const shops = twoShops();
    const first = await sharedOnce(shops, known);
    const { out: second } = await shops.run('gives', 'key', '--key', 'other.pem');
    execFileSync('mv', [join(shops.cwd, 'other.pem'), join(shops.cwd, 'weir.pem')]);
    await shops.publish('1.1.0');
    const { code, said } = await shops.update();
    expect([code, said]).toEqual([1, expect.stringMatching(known ? /is signed by/ : /the signer has changed/)]);
    const list = shops.read('takes/collections.yaml');
    shops.write(
      'takes/collections.yaml',
      list.replace(/ {4}key: .*\n/, '').replace('    folder', `    key: ${second}\n    folder`),
    );
    expect((await shops.update()).code).toBe(0);
    expect(first).not.toBe(second);
  }
});

test('a damaged version in use is told, and not merged from', async () => {
  const shops = twoShops();
  await sharedOnce(shops);
  shops.change(`takes/collections/tarn-values/1.0.0/${TABLE}`, '98', '89');
  expect(await shops.run('takes', 'verify')).toMatchObject({
    code: 1,
    said: expect.stringContaining('is not what was signed'),
  });
  shops.change(`gives/${TABLE}`, 'title: Rear axle nut', 'title: Nut of the rear axle');
  await shops.publish('1.1.0');
  expect((await shops.update()).code).toBe(1);
});

test('a key is made once, for its owner alone, and never where content is given away', async () => {
  const shops = twoShops();
  expect((await shops.run('gives', 'key', '--key', 'gives/weir.pem')).code).toBe(2);
  expect(existsSync(join(shops.cwd, 'gives/weir.pem'))).toBe(false);
  const { out } = await shops.run('gives', 'key', '--key', 'weir.pem');
  expect(execFileSync('stat', ['-c', '%a', join(shops.cwd, 'weir.pem')]).toString()).toBe('600\n');
  expect((await shops.run('gives', 'key', '--key', 'weir.pem')).out).toBe(out);
});
