import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { onTestFinished } from 'vitest';
import { SOUND_SHOP } from '../../../src/core/check/sample.ts';
import { call } from '../../support/call.ts';

export const TABLE = 'specs/tarn-420.yaml';
/** A value that can hurt, as two invented shops share it. */
export const CRITICAL = (SOUND_SHOP[TABLE] ?? '').replace(
  '    kind: torque\n',
  '    kind: torque\n    critical: true\n',
);

const PUBLISHES = `publishes:
  - name: tarn-values
    title: Values of the Tarn 420
    licence: CC-BY-4.0
    files: [${TABLE}]
`;

/**
 * Two invented shops in a folder of the test's own: Weir Bank Workshop publishes, Millrace Community Garage uses. `gives`
 * is the content of the first, `takes` that of the second, `shelf` what is published.
 */
export function twoShops(table = CRITICAL, ofOneTest = true) {
  const cwd = mkdtempSync(join(tmpdir(), 'liftside-shops-'));
  if (ofOneTest) onTestFinished(() => rmSync(cwd, { recursive: true, force: true }));
  const write = (path: string, text: string | Uint8Array) => {
    mkdirSync(dirname(join(cwd, path)), { recursive: true });
    writeFileSync(join(cwd, path), text);
  };
  const read = (path: string) => readFileSync(join(cwd, path), 'utf8');
  const change = (path: string, from: string, to: string) => {
    if (!read(path).includes(from)) throw new Error(`${path} does not hold "${from}"`);
    write(
      path,
      read(path).replace(from, () => to),
    );
  };
  for (const [file, text] of Object.entries({ ...SOUND_SHOP, [TABLE]: table })) {
    write(`gives/${file}`, text);
    if (file !== TABLE) write(`takes/${file}`, text);
  }
  write('gives/shop.yaml', 'name: Weir Bank Workshop\ninvented: true\n');
  write('gives/collections.yaml', PUBLISHES);
  const run = (content: string, ...words: string[]) =>
    call(['collections', ...words], { cwd, content: join(cwd, content) });
  const publish = (version: string, ...more: string[]) =>
    run('gives', 'publish', 'tarn-values', '--release', version, '--key', 'weir.pem', '-o', 'shelf', ...more);
  const update = (...flags: string[]) => run('takes', 'update', ...flags);
  /** What the second shop writes of the collection. */
  const uses = (more = '', place = 'folder: ../shelf') =>
    write('takes/collections.yaml', `# what we take\nuses:\n  - name: tarn-values\n    ${place}\n${more}`);
  const check = () => call(['check', '--json'], { content: join(cwd, 'takes') });
  return { cwd, write, read, change, run, publish, update, uses, check };
}

export type TwoShops = ReturnType<typeof twoShops>;

/** Makes the publisher's key, publishes 1.0.0 and has the second shop take it. @returns the fingerprint */
export async function sharedOnce(shops: TwoShops, known = true): Promise<string> {
  const { out: fingerprint } = await shops.run('gives', 'key', '--key', 'weir.pem');
  const published = await shops.publish('1.0.0');
  if (published.code !== 0) throw new Error(published.said);
  shops.uses(known ? `    key: ${fingerprint}\n` : '');
  const updated = await shops.update();
  if (updated.code !== 0) throw new Error(updated.said + updated.out);
  return fingerprint;
}
