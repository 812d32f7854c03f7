import { hash } from 'node:crypto';
import { createWriteStream } from 'node:fs';
import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { pipeline } from 'node:stream/promises';
import { anglesUsed } from '../../core/media/index.ts';
import type { Recording } from '../../core/model/index.ts';
import { PACKAGE_FOLDERS } from '../../core/pack/index.ts';
import { fileInside, loadShop, placeFolder } from '../files/index.ts';
import {
  factsSchema,
  findRendered,
  MANIFEST,
  type Manifest,
  manifestSchema,
  renderedFolder,
} from '../media/rendered.ts';
import type { PackageState } from './check-package.ts';
import { type PackageFiles, readText } from './package-files.ts';

const { film: FILM } = PACKAGE_FOLDERS;
/** What a finished programme is called below the content folder. */
const PROGRAMME = 'programme.mp4';
const MOST_MANIFEST = 64_000_000;

/**
 * From what a finished programme was made, as it goes along with it: the camera files stay in the shop, and what was
 * found out about them travels, so that every time of the recording keeps its meaning where they are not.
 */
export function travellingManifest(recording: Recording, manifest: Manifest): string {
  const away = [...recording.files, ...anglesUsed(recording)].flatMap(({ file, facts }) =>
    facts.state === 'media' ? [[file, factsSchema.parse(facts.media)] as const] : [],
  );
  const { files, away: _, ...rest } = manifest;
  const programme = { name: PROGRAMME, bytes: files.programme?.bytes ?? 0 };
  return `${JSON.stringify({ ...rest, away: Object.fromEntries(away), files: { programme } }, null, 1)}\n`;
}

/**
 * Puts the finished programmes of a package where those of the shop lie, for recordings that are as they were packed and
 * have none yet.
 *
 * @returns paths that were written, in the content folder
 */
export async function placeProgrammes(
  files: PackageFiles,
  state: PackageState,
  content: string,
  signal: AbortSignal,
): Promise<readonly string[]> {
  const placed: string[] = [];
  const films = (state.manifest?.films ?? []).filter(({ plays }) => plays === 'programme');
  for (const { recording: id } of films) {
    const [film, made] = [`${FILM}/${id}.mp4`, `${FILM}/${id}.json`];
    if (!state.sums.has(film) || !state.sums.has(made)) continue;
    // Another recording of the same id has other files and times.
    const text = await readFile(fileInside(content, `recordings/${id}.yaml`)).catch(() => Buffer.of());
    const sum = hash('sha256', text);
    if (sum !== state.sums.get(`${PACKAGE_FOLDERS.source}/recordings/${id}.yaml`)) continue;
    const manifest = readTravelling(await readText(files, made, MOST_MANIFEST));
    if (manifest?.recording !== id || manifest.files.programme?.bytes !== files.sizes.get(film)) continue;
    // Read afresh: it decides by what the content says now.
    const before = (await loadShop(content)).shop.recordings.find((one) => one.id === id);
    if (!before || (await findRendered(content, before))) continue;
    const target = renderedFolder(content, id);
    const wishes = { target, content, own: true, holds: 'a rendered programme', what: 'unpacking', signal } as const;
    await placeFolder(wishes, async (next) => {
      await pipeline(await files.read(film), createWriteStream(join(next, PROGRAMME)), { signal });
      await writeFile(join(next, MANIFEST), JSON.stringify(manifest));
    });
    placed.push(`.liftside/rendered/${id}/${PROGRAMME}`);
  }
  return placed;
}

function readTravelling(text: string): Manifest | undefined {
  try {
    const manifest = manifestSchema.parse(JSON.parse(text));
    return Object.keys(manifest.files).join() === 'programme' && manifest.files.programme?.name === PROGRAMME
      ? manifest
      : undefined;
  } catch {
    return undefined;
  }
}
