import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';

/** File of a built site that holds the licences of what it is made of. */
export const LICENCES = 'licences.txt';

const about = z.object({ name: z.string(), version: z.string(), license: z.string().optional() });

/** The licence of something that goes out with the pages. */
export interface Licence {
  readonly name: string;
  readonly text: string;
}

/**
 * The licences of all software and fonts that the pages bring with them, and Liftside's own, which comes first.
 *
 * @param packages folders of those that have a part in what browsers load
 */
export async function licencesOf(home: string, packages: readonly string[]): Promise<Licence[]> {
  const own = { name: 'liftside', text: await readFile(join(home, 'LICENSE'), 'utf8') };
  const others = await Promise.all(packages.map(licenceOf));
  // By name, so that the same packages give the same bytes wherever they lie.
  return [own, ...others.toSorted((a, b) => (a.name < b.name ? -1 : 1))];
}

async function licenceOf(folder: string): Promise<Licence> {
  const {
    name,
    version,
    license = 'not told',
  } = about.parse(JSON.parse(await readFile(join(folder, 'package.json'), 'utf8')));
  const files = (await readdir(folder)).filter((file) => /^(?:licen[cs]e|copying|notice)/i.test(file)).toSorted();
  const texts = await Promise.all(files.map((file) => readFile(join(folder, file), 'utf8')));
  return {
    name,
    text: `${[`${name} ${version}\nLicence: ${license}`, ...texts.map((each) => each.trim())].join('\n\n')}\n`,
  };
}

/** All licences as one text, for a site. */
export function licenceFile(licences: readonly Licence[]): string {
  const head = 'What this site is made of, and under which licence. Words and films of the shop are the shop’s own.\n';
  return [head, ...licences.map(({ text }) => text)].join(`\n${'-'.repeat(72)}\n\n`);
}
