import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync, statSync } from 'node:fs';
import { createServer } from 'node:https';
import type { AddressInfo } from 'node:net';
import { join, resolve } from 'node:path';
import { getCACertificates, setDefaultCACertificates } from 'node:tls';
import { expect, onTestFinished, test } from 'vitest';
import { onPath } from '../../../src/node/programs/on-path.ts';
import { CRITICAL, sharedOnce, TABLE, twoShops } from './two-shops.ts';

const CERTIFICATE = resolve(import.meta.dirname, '../../fixtures/loopback-https');
const pem = (name: string) => readFileSync(join(CERTIFICATE, `${name}.pem`), 'utf8');

/** Gives out a folder by https on this machine, and remembers what was asked for. */
async function served(folder: string, answer?: (path: string) => { code: number; location?: string } | undefined) {
  const asked: string[] = [];
  const server = createServer({ key: pem('key'), cert: pem('certificate') }, (request, response) => {
    const path = new URL(request.url ?? '/', 'https://x').pathname;
    asked.push(path);
    const own = answer?.(path);
    const file = join(folder, path);
    if (own) response.writeHead(own.code, own.location ? { location: own.location } : {}).end();
    else if (existsSync(file) && statSync(file).isFile()) response.end(readFileSync(file));
    else response.writeHead(404).end();
  });
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  onTestFinished(() => new Promise<void>((done) => void server.close(() => done())));
  return { asked, address: `https://127.0.0.1:${(server.address() as AddressInfo).port}` };
}

function trustLoopback() {
  const before = getCACertificates('default');
  setDefaultCACertificates([...before, pem('certificate')]);
  onTestFinished(() => setDefaultCACertificates(before));
}

const git = (cwd: string, ...args: string[]) =>
  execFileSync('git', ['-c', 'user.name=Weir Bank', '-c', 'user.email=weir@bank.example', ...args], { cwd });

test('from an https address: the list first, then what it names, and nothing else', async () => {
  const shops = twoShops();
  await sharedOnce(shops);
  const list = shops.read('takes/collections.yaml').split('folder: ../shelf\n')[1] ?? '';
  shops.change(`gives/${TABLE}`, 'title: Rear axle nut', 'title: Nut of the rear axle');
  await shops.publish('1.1.0');
  const { asked, address } = await served(shops.cwd);
  shops.uses(list, `address: ${address}/shelf`);
  // A certificate that nobody vouches for.
  expect(await shops.update()).toMatchObject({
    code: 3,
    said: expect.stringMatching(/cannot be fetched: .*self-signed/),
  });
  expect(asked).toEqual([]);
  trustLoopback();
  expect((await shops.update()).code).toBe(0);
  expect(asked).toEqual(['/shelf/collection.yaml', `/shelf/${TABLE}`]);
  expect(shops.read(`takes/${TABLE}`)).toContain('Nut of the rear axle');
});

test('a server that leads elsewhere, does not know it, or sends without end is told, and what is in use stays', async () => {
  trustLoopback();
  const shops = twoShops();
  await sharedOnce(shops);
  const list = shops.read('takes/collections.yaml').split('folder: ../shelf\n')[1] ?? '';
  const elsewhere = await served(shops.cwd, () => ({ code: 302, location: 'https://elsewhere.example/' }));
  shops.uses(list, `address: ${elsewhere.address}/shelf`);
  expect(await shops.update()).toMatchObject({
    code: 3,
    said: expect.stringContaining('it leads to https://elsewhere.example/'),
  });
  const nowhere = await served(shops.cwd);
  shops.uses(list, `address: ${nowhere.address}/none`);
  expect(await shops.update()).toMatchObject({ code: 3, said: expect.stringContaining('the server answers 404') });
  shops.write('shelf/collection.yaml', '#'.repeat(5_000_000));
  shops.uses(list, `address: ${nowhere.address}/shelf`);
  expect(await shops.update()).toMatchObject({ code: 1, said: expect.stringContaining('1.0.0 stays in use') });
});

// Only git reads what git keeps.
test.skipIf((await onPath(['git'], process.env)) === undefined)(
  'from a git repository: a folder of its newest commit, and a link in it is refused by name',
  async () => {
    const shops = twoShops();
    await shops.run('gives', 'key', '--key', 'weir.pem');
    await shops.publish('1.0.0');
    git(shops.cwd, 'init', '-q', '-b', 'main', 'repository');
    const repository = join(shops.cwd, 'repository');
    execFileSync('cp', ['-r', join(shops.cwd, 'shelf'), join(repository, 'values')]);
    git(repository, 'add', '.');
    git(repository, 'commit', '-q', '-m', 'Values of the Tarn 420');
    const place = `git: file://${repository}\n    path: values`;
    shops.uses('', place);
    expect((await shops.update()).code).toBe(0);
    expect(shops.read(`takes/${TABLE}`)).toBe(CRITICAL);
    execFileSync('ln', ['-s', '/etc/hostname', join(repository, 'values/words.yaml')]);
    git(repository, 'add', '.');
    git(repository, 'commit', '-q', '-m', 'Words');
    expect(await shops.update()).toMatchObject({
      code: 1,
      said: expect.stringContaining('"words.yaml": it is a link'),
    });
    shops.uses('', `git: file://${repository}-gone`);
    expect(await shops.update()).toMatchObject({ code: 3, said: expect.stringContaining('cannot be fetched: ') });
  },
);

test.each([
  ['git: "ext::sh -c date"', 'a repository begins with https://'],
  ['git: "--upload-pack=date"', 'a repository begins with https://'],
  ['git: "ssh://-oProxyCommand=date/x"', 'a repository begins with https://'],
  ['address: http://weir.example/', 'an address begins with https://'],
  ['address: file:///etc', 'an address begins with https://'],
  ['git: file:///x\n    path: ../y', '.. leads out'],
  ['folder: ../shelf\n    git: file:///x', 'it comes from one place'],
])('%s is told at its place and not asked', async (place, says) => {
  const shops = twoShops();
  shops.uses('', place);
  const { code, said } = await shops.update();
  expect([code, said]).toEqual([2, expect.stringContaining(says)]);
  expect(said).toMatch(/^collections\.yaml:\d+:\d+: /);
});
