import { cp, mkdir, readdir, readFile, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { parse } from 'yaml';
import { SOUND_SHOP } from '../../../src/core/check/sample.ts';
import { loadShop } from '../../../src/node/files/index.ts';
import { call } from '../../support/call.ts';
import { MAIN } from './run.ts';

const TABLE = 'specs/tarn-420.yaml';
const OLD = 'nominal: 98\n';
const NEW = 'nominal: 120\n';
const HISTORY = '    history:\n      - {until: 2026-11-01, nominal: 98, plusMinus: 5, unit: N·m}\n';

/** A shop that uses 1.0.0 of a table and has a recording that says its value, and a folder that offers 1.1.0. */
export async function sharedTable(folder: string): Promise<void> {
  const write = async (path: string, text: string) => {
    await mkdir(dirname(join(folder, path)), { recursive: true });
    await writeFile(join(folder, path), text);
  };
  const run = async (content: string, ...words: string[]) => {
    const { code, out, said } = await call(['collections', ...words], { cwd: folder, content: join(folder, content) });
    if (code !== 0) throw new Error(said + out);
    return out;
  };
  const saying = '00:06:12.000 --> 00:09:00.000\ntorque it to ninety-eight newton metres';
  for (const [file, text] of Object.entries(SOUND_SHOP)) {
    await write(`gives/${file}`, text);
    if (file !== TABLE) await write(`takes/${file}`, text.replace('00:06:00.000 --> 00:09:00.000\n[working]', saying));
  }
  await write(
    'gives/collections.yaml',
    `publishes:\n  - {name: tarn-values, title: Values, licence: CC-BY-4.0, files: [${TABLE}]}\n`,
  );
  const key = await run('gives', 'key', '--key', 'key.pem');
  const publish = (version: string) =>
    run('gives', 'publish', 'tarn-values', '--release', version, '--key', 'key.pem', '-o', 'shelf');
  await publish('1.0.0');
  await write('takes/collections.yaml', `uses:\n  - name: tarn-values\n    folder: ../shelf\n    key: ${key}\n`);
  await run('takes', 'update');
  const table = SOUND_SHOP[TABLE] ?? '';
  await write(`gives/${TABLE}`, table.replace(OLD, NEW).replace('    unit: N·m\n', `    unit: N·m\n${HISTORY}`));
  await publish('1.1.0');
}

/** The words of a process that takes 1.1.0. */
export function updater(folder: string): string[] {
  return [MAIN, 'collections', 'update', '--take', 'all', '--content', join(folder, 'takes')];
}

/** A copy of a prepared folder, for one kill. */
export async function copied(from: string, to: string): Promise<void> {
  for (const name of ['takes', 'shelf']) await cp(join(from, name), join(to, name), { recursive: true });
}

/**
 * Which version a shop is at, once its folder is read again.
 *
 * @throws where value, lock, correction and what is kept do not belong together
 */
export async function versionOf(folder: string): Promise<'old' | 'new'> {
  const content = join(folder, 'takes');
  await loadShop(content);
  const read = (file: string) => readFile(join(content, file), 'utf8').catch(() => '');
  const { version } = parse(await read('collections.yaml')).uses[0].lock;
  const isNew = version === '1.1.0';
  const kept = await call(['collections', 'verify'], { cwd: folder, content });
  const says = [(await read(TABLE)).includes(NEW), (await read('corrections/chain.yaml')) !== ''];
  if (kept.code !== 0 || says.some((one) => one !== isNew))
    throw new Error(`torn: ${version} ${says.join()} ${kept.said}`);
  return isNew ? 'new' : 'old';
}

/** The versions that are kept, and what lies beside them. */
export function keptIn(folder: string): Promise<string[]> {
  return readdir(join(folder, 'takes/collections/tarn-values'));
}
