import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import { PACKAGE_FOLDERS } from '../../core/pack/index.ts';
import { entryOf, type PackEntry } from './entry.ts';

const about = z.object({ name: z.string(), version: z.string(), license: z.string().optional() });

/** The licences of all software and fonts that the pages bring with them, one text each, and Liftside's own. */
export async function licenceEntries(home: string, packages: readonly string[]): Promise<PackEntry[]> {
  const own = entryOf(`${PACKAGE_FOLDERS.licences}/liftside.txt`, await readFile(join(home, 'LICENSE')));
  const others = await Promise.all(packages.map((name) => licenceOf(join(home, 'node_modules', name))));
  return [own, ...others];
}

async function licenceOf(folder: string): Promise<PackEntry> {
  const {
    name,
    version,
    license = 'not told',
  } = about.parse(JSON.parse(await readFile(join(folder, 'package.json'), 'utf8')));
  const files = (await readdir(folder)).filter((file) => /^(?:licen[cs]e|copying|notice)/i.test(file)).toSorted();
  const texts = await Promise.all(files.map((file) => readFile(join(folder, file), 'utf8')));
  const text = [`${name} ${version}\nLicence: ${license}`, ...texts.map((each) => each.trim())].join('\n\n');
  return entryOf(`${PACKAGE_FOLDERS.licences}/${name.replace('@', '').replace('/', '-')}.txt`, `${text}\n`);
}
