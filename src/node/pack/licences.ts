import { PACKAGE_FOLDERS } from '../../core/pack/index.ts';
import { licencesOf } from '../site/licences.ts';
import { entryOf, type PackEntry } from './entry.ts';

/** The licences of all software and fonts that the pages bring with them, one text each, and Liftside's own. */
export async function licenceEntries(home: string, packages: readonly string[]): Promise<PackEntry[]> {
  const licences = await licencesOf(home, packages);
  return licences.map(({ name, text }) =>
    entryOf(`${PACKAGE_FOLDERS.licences}/${name.replace('@', '').replace('/', '-')}.txt`, text),
  );
}
